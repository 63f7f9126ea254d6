// SPDX-License-Identifier: MIT
// What is left of a soil-active treatment, and what the rest still does.
#pragma once

#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/dates.hpp"
#include "core/problem.hpp"
#include "core/rain.hpp"
#include "core/series.hpp"
#include "core/temperature.hpp"

namespace soilclock::treatment {

/// The numbers of models/treatment/residual.json.
struct ResidualRule {
  double activation_energy_least_j_per_mol = 0.0;  ///< drawn evenly between the two, member by member
  double activation_energy_most_j_per_mol = 0.0;
  Temperature reference;
  double half_lives_of_use = 0.0;  ///< a residual counts as lasting this many half-lives measured in turf
  double dose_of_half_efficacy = 0.0;
  double spent_below = 0.0;     ///< dose left below which nine tenths of the effect is no longer there
  double shortest_weeks = 0.0;  ///< an active that lasts less counts as having no residual
  Rain activating_water;
  int lost_without_water_after_days = 0;
};

/// Reads models/treatment/residual.json; a request problem names the place of what is wrong.
Result<ResidualRule> read_residual_rule(std::string_view json, const std::string& file);

/// How much faster than at the reference a residual decays in soil of this temperature: 1 at 20 C; at 30
/// C 1.5 to 2.4 for the two ends of the activation energy. Arrhenius, exp(-E/R (1/T - 1/Tref)). Unknown
/// temperature gives not-a-number. Sources: hong-smith-1996, efsa-2008.
double decay_factor(Temperature soil, double activation_energy_j_per_mol, const ResidualRule& rule);

/// Half-life at the reference temperature of a residual that lasts `residual_weeks` (above 0): weeks x 7
/// / 2.5. Half-lives of general lists must not be used instead: in turf they overstate up to fourfold.
/// Source: schleicher-1995.
double effective_half_life_days(double residual_weeks, const ResidualRule& rule);

/// Share of the greatest effect that is left while `dose_left` (a full dose = 1, two doses may add to more)
/// is in the soil: f^3 / (f^3 + 0.085^3). Negative doses count as none. Source: derived from the 2.5
/// half-lives rule. StoppedByResidual::on() has it multiplied out, for speed.
inline double dose_effect(double dose_left, const ResidualRule& rule) {
  const double dose = std::max(dose_left, 0.0);
  const double cube = dose * dose * dose;
  const double half = rule.dose_of_half_efficacy;
  return cube / (cube + half * half * half);
}

/// Running sum of decay_factor from the second day on: how many days at the reference temperature the days
/// since the first were worth. `soil`: daily means, complete.
std::vector<double> reference_days(std::span<const Temperature> soil, double activation_energy_j_per_mol,
                                   const ResidualRule& rule);

/// Dose fractions over consecutive days of one soil temperature course, for one half-life.
class ResidualClock {
 public:
  /// From reference_days() of the soil; `residual_weeks` above 0.
  ResidualClock(std::span<const double> reference_days, double residual_weeks, const ResidualRule& rule);
  /// `soil`: daily means, complete; `residual_weeks` above 0.
  ResidualClock(std::span<const Temperature> soil, double residual_weeks, double activation_energy_j_per_mol,
                const ResidualRule& rule);

  /// Share of a dose put down on day index `from` still there on day index `to`; 1 on the day itself, 0
  /// before it. A dose decays from the day after it is put down. Indices count from the first soil
  /// temperature; one beyond the last throws std::out_of_range.
  double left(std::size_t from, std::size_t to) const;

  /// 2^-(half-lives since day 0) on each day, for tight loops: left(a, b) = decayed()[b] / decayed()[a].
  std::span<const double> decayed() const { return decayed_; }

 private:
  std::vector<double> decayed_;
};

/// Days from an application until rain has brought the activating water (0: the same day), counting the day
/// itself. Turf kept watered is activated within a day. Nothing when it has not come within 14 days or when
/// the days known so far do not show it; a day of unknown rain counts as nothing brought, since an activation
/// cannot be claimed from it. Source: gasper-1994 for the loss by waiting; the 14 days are judgment.
std::optional<int> days_until_activated(const DailySeries<Rain>& rain, Day applied, bool watered,
                                        const ResidualRule& rule);

}  // namespace soilclock::treatment
