// SPDX-License-Identifier: MIT
#include "treatment/residual.hpp"

#include <algorithm>
#include <cmath>

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::treatment {

Result<ResidualRule> read_residual_rule(std::string_view json, const std::string& file) {
  return read_json(json, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-residual/1");
    ResidualRule rule;
    const ParameterSpan energy = read_span(top, "activation_energy", "J/mol", {1e3, 2e5});
    rule.activation_energy_least_j_per_mol = energy.least;
    rule.activation_energy_most_j_per_mol = energy.most;
    rule.reference =
        Temperature::from_celsius(read_parameter(top, "reference_temperature", "C", {0, 40}).value);
    rule.half_lives_of_use = read_parameter(top, "half_lives_of_use", "half-lives", {0.5, 5}).value;
    rule.dose_of_half_efficacy = read_parameter(top, "dose_of_half_efficacy", "1", {0.001, 1}).value;
    rule.spent_below = read_parameter(top, "spent_below", "1", {0, 1}).value;
    rule.shortest_weeks = read_parameter(top, "shortest", "weeks", {1, 10}).value;
    rule.activating_water = Rain::from_mm(read_parameter(top, "activating_water", "mm", {0, 50}).value);
    rule.lost_without_water_after_days = read_whole(top, "lost_without_water_after", "d", {1, 60});
    top.finish();
    return rule;
  });
}

double decay_factor(Temperature soil, double activation_energy_j_per_mol, const ResidualRule& rule) {
  constexpr double gas_constant = 8.314;  // J/(mol K)
  const double inverse = 1.0 / soil.kelvin();
  const double inverse_reference = 1.0 / rule.reference.kelvin();
  return std::exp(-activation_energy_j_per_mol / gas_constant * (inverse - inverse_reference));
}

double effective_half_life_days(double residual_weeks, const ResidualRule& rule) {
  return residual_weeks * 7.0 / rule.half_lives_of_use;
}

std::vector<double> reference_days(std::span<const Temperature> soil, double activation_energy_j_per_mol,
                                   const ResidualRule& rule) {
  std::vector<double> days(soil.size());
  for (std::size_t i = 1; i < soil.size(); ++i)
    days[i] = days[i - 1] + decay_factor(soil[i], activation_energy_j_per_mol, rule);
  return days;
}

ResidualClock::ResidualClock(std::span<const double> reference_days, double residual_weeks,
                             const ResidualRule& rule) {
  const double half_life = effective_half_life_days(residual_weeks, rule);
  decayed_.assign(reference_days.begin(), reference_days.end());
  for (double& days : decayed_) {
    // Beyond it the cube of what is left would underflow to zero and quotients to not-a-number. Residuals of
    // a week, the shortest there can be, do not get there within a season.
    constexpr double most_half_lives = 340.0;
    days = std::exp2(-std::min(days / half_life, most_half_lives));
  }
}

ResidualClock::ResidualClock(std::span<const Temperature> soil, double residual_weeks,
                             double activation_energy_j_per_mol, const ResidualRule& rule)
    : ResidualClock{reference_days(soil, activation_energy_j_per_mol, rule), residual_weeks, rule} {}

double ResidualClock::left(std::size_t from, std::size_t to) const {
  return to < from ? 0.0 : decayed_.at(to) / decayed_.at(from);
}

std::optional<int> days_until_activated(const DailySeries<Rain>& rain, Day applied, bool watered,
                                        const ResidualRule& rule) {
  if (watered) return 1;
  double brought_mm = 0.0;
  for (int days = 0; days <= rule.lost_without_water_after_days; ++days) {
    if (const auto water = rain.at(applied + Days{days})) brought_mm += water->mm();
    if (brought_mm >= rule.activating_water.mm()) return days;
  }
  return std::nullopt;
}

}  // namespace soilclock::treatment
