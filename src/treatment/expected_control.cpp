// SPDX-License-Identifier: MIT
#include "treatment/expected_control.hpp"

#include <algorithm>

#include "emergence/stages.hpp"

namespace soilclock::treatment {

std::string_view name(Kind kind) {
  switch (kind) {
    case Kind::pre:
      return "pre";
    case Kind::pre_post:
      return "pre+post";
    case Kind::post:
      break;
  }
  return "post";
}

StoppedByResidual::StoppedByResidual(const SeasonCohorts& cohorts, std::span<const ResidualDraw> residuals,
                                     const ResidualRule& rule)
    : cohorts_{cohorts}, rule_{rule} {
  parts_.reserve(residuals.size());
  for (const ResidualDraw& part : residuals) {
    parts_.push_back(
        {part.works, ResidualClock{cohorts.soil, part.weeks, part.activation_energy_j_per_mol, rule}});
  }
}

StoppedByResidual::StoppedByResidual(const SeasonCohorts& cohorts, std::span<const ResidualDraw> residuals,
                                     const ResidualRule& rule, std::span<const double> reference_days)
    : cohorts_{cohorts}, rule_{rule} {
  parts_.reserve(residuals.size());
  for (const ResidualDraw& part : residuals)
    parts_.push_back({part.works, ResidualClock{reference_days, part.weeks, rule}});
}

double StoppedByResidual::on(Day day) const {
  if (parts_.empty() || !cohorts_.days().contains(day)) return 0.0;
  const auto at = static_cast<std::size_t>((day - cohorts_.first).count());
  const auto shares = cohorts_.emerging_share.subspan(at + 1);
  const ResidualRule rule = rule_;  // its own copy, so that nothing written below can be taken to change it
  std::vector<double> passes(shares.size(), 1.0);
  for (const Part& part : parts_) {
    const double full_dose = 1.0 / part.clock.decayed()[at];
    const auto decayed = part.clock.decayed().subspan(at + 1);
    for (std::size_t i = 0; i < passes.size(); ++i)
      passes[i] *= 1.0 - part.works * dose_effect(decayed[i] * full_dose, rule);
  }
  double stopped = 0.0;
  for (std::size_t i = 0; i < shares.size(); ++i) stopped += std::max(shares[i], 0.0) * (1.0 - passes[i]);
  return stopped;
}

ExpectedControl::ExpectedControl(const SeasonCohorts& cohorts, const DrawnTreatment& treatment,
                                 const GrassControl& grass, const ResidualRule& residual)
    : cohorts_{cohorts},
      treatment_{treatment},
      grass_{grass},
      residual_{residual},
      emerged_before_(cohorts.emerging_share.size() + 1, 0.0) {
  for (std::size_t i = 0; i < cohorts_.emerging_share.size(); ++i) {
    emerged_before_[i + 1] = emerged_before_[i] + cohorts_.emerging_share[i];
  }
}

std::optional<std::size_t> ExpectedControl::index(Day day) const {
  if (!cohorts_.days().contains(day)) return std::nullopt;
  return static_cast<std::size_t>((day - cohorts_.first).count());
}

double ExpectedControl::warmth_on(std::size_t day) const {
  const auto& rule = grass_.warmth;
  if (!rule) return 1.0;
  const std::size_t end = std::min(day + static_cast<std::size_t>(rule->days), cohorts_.air_max.size());
  double sum = 0.0;
  for (std::size_t i = day; i < end; ++i) sum += cohorts_.air_max[i].celsius();
  return warmth_factor(Temperature::from_celsius(sum / static_cast<double>(end - day)), *rule);
}

double ExpectedControl::warmest_of(std::size_t day, int days) const {
  const std::size_t end = std::min(day + static_cast<std::size_t>(days), cohorts_.air_max.size());
  double warmth = warmth_on(day);
  for (std::size_t spray = day + 1; spray < end; ++spray) warmth = std::max(warmth, warmth_on(spray));
  return warmth;
}

double ExpectedControl::foliar_on(std::size_t day, double warmth) const {
  const auto borders =
      emergence::stage_borders(cohorts_.thermal_age, day, cohorts_.limits, cohorts_.age_unit);
  double killed = 0.0;
  std::size_t end = day + 1;
  for (std::size_t stage = 0; stage < emergence::stage_count; ++stage) {
    killed += (emerged_before_[end] - emerged_before_[borders[stage]]) * treatment_.kill[stage].value();
    end = borders[stage];
  }
  return killed * warmth;
}

/// What a residual does to plants just up goes with how well it works.
double ExpectedControl::residual_works() const {
  double best = 0.0;
  for (const ResidualDraw& part : treatment_.residuals) best = std::max(best, part.works);
  return best;
}

double ExpectedControl::just_up_on(std::size_t day) const {
  const auto days = static_cast<std::size_t>(grass_.young_up_to_days);
  const std::size_t from = day >= days ? day - days : 0;
  return emerged_before_[day + 1] - emerged_before_[from];
}

double ExpectedControl::young_on(std::size_t day) const {
  return just_up_on(day) * grass_.young_seedlings.value() * residual_works();
}

std::array<double, kind_count> ExpectedControl::on(Day day, int days_to_choose_from) const {
  if (!stopped_) stopped_.emplace(cohorts_, treatment_.residuals, residual_);
  return with_residual(day, stopped_->on(day), days_to_choose_from);
}

std::array<double, kind_count> ExpectedControl::with_residual(Day day, double residual,
                                                              int days_to_choose_from) const {
  std::array<double, kind_count> control{};
  const auto at = index(day);
  if (!at) return control;
  const double warmth = warmest_of(*at, days_to_choose_from);
  const double foliar = foliar_on(*at, warmth);
  const double young = young_on(*at);
  const double cap = grass_.cap.value();
  control[index_of(Kind::pre)] = std::min(young + residual, cap);
  // Plants just up die of whichever part does more to them.
  const double young_by_foliar = just_up_on(*at) * treatment_.kill.front().value() * warmth;
  control[index_of(Kind::pre_post)] =
      std::min(foliar + std::max(0.0, young - young_by_foliar) + residual, cap);
  control[index_of(Kind::post)] = std::min(foliar, cap);
  return control;
}

std::vector<double> ExpectedControl::killed_of_those_up(Kind kind, Day day) const {
  std::vector<double> killed(cohorts_.emerging_share.size(), 0.0);
  const auto at = index(day);
  if (!at) return killed;
  if (has_foliar(kind)) {
    const double warmth = warmth_on(*at);
    const auto borders =
        emergence::stage_borders(cohorts_.thermal_age, *at, cohorts_.limits, cohorts_.age_unit);
    std::size_t end = *at + 1;
    for (std::size_t stage = 0; stage < emergence::stage_count; ++stage) {
      for (std::size_t i = borders[stage]; i < end; ++i) killed[i] = treatment_.kill[stage].value() * warmth;
      end = borders[stage];
    }
  }
  if (has_residual(kind)) {
    const auto young = static_cast<std::size_t>(grass_.young_up_to_days);
    for (std::size_t i = *at >= young ? *at - young : 0; i <= *at; ++i)
      killed[i] = std::max(killed[i], grass_.young_seedlings.value() * residual_works());
  }
  return killed;
}

}  // namespace soilclock::treatment
