// SPDX-License-Identifier: MIT
#include "treatment/expected_control.hpp"

#include <algorithm>
#include <memory>

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

namespace {

double cube_of(double value) { return value * value * value; }

/// In four sums side by side, so that no addition waits for the one before it.
double sum_of(std::span<const double> values) {
  std::array<double, 4> sums{};
  std::size_t i = 0;
  for (; i + sums.size() <= values.size(); i += sums.size()) {
    for (std::size_t lane = 0; lane < sums.size(); ++lane) sums[lane] += values[i + lane];
  }
  for (; i < values.size(); ++i) sums[0] += values[i];
  return (sums[0] + sums[1]) + (sums[2] + sums[3]);
}

std::optional<std::size_t> index_in(const SeasonCohorts& cohorts, Day day) {
  if (!cohorts.days().contains(day)) return std::nullopt;
  return static_cast<std::size_t>((day - cohorts.first).count());
}

/// The factor of a foliar part that goes out on a day, from the warmth of the days after it.
double warmth_after(const SeasonCohorts& cohorts, const GrassControl& grass, std::size_t day) {
  const auto& rule = grass.warmth;
  if (!rule) return 1.0;
  const std::size_t end = std::min(day + static_cast<std::size_t>(rule->days), cohorts.air_max.size());
  double sum = 0.0;
  for (std::size_t i = day; i < end; ++i) sum += cohorts.air_max[i].celsius();
  return warmth_factor(Temperature::from_celsius(sum / static_cast<double>(end - day)), *rule);
}

/// What a residual does to plants just up goes with how well it works.
double residual_works(const DrawnTreatment& treatment) {
  double best = 0.0;
  for (const ResidualDraw& part : treatment.residuals) best = std::max(best, part.works);
  return best;
}

}  // namespace

StoppedByResidual::StoppedByResidual(const SeasonCohorts& cohorts, const ResidualRule& rule)
    : days_{cohorts.days()}, cube_of_half_{cube_of(rule.dose_of_half_efficacy)} {
  for (const double share : cohorts.emerging_share) shares_.push_back(std::max(share, 0.0));
  while (!shares_.empty() && shares_.back() == 0.0) shares_.pop_back();
  to_come_.resize(shares_.size() + 1, 0.0);
  for (std::size_t i = shares_.size(); i-- > 0;) to_come_[i] = to_come_[i + 1] + shares_[i];
}

StoppedByResidual::StoppedByResidual(const SeasonCohorts& cohorts, std::span<const ResidualDraw> residuals,
                                     const ResidualRule& rule)
    : StoppedByResidual{cohorts, rule} {
  for (const ResidualDraw& part : residuals)
    add(part.works, ResidualClock{cohorts.soil, part.weeks, part.activation_energy_j_per_mol, rule});
}

StoppedByResidual::StoppedByResidual(const SeasonCohorts& cohorts, std::span<const ResidualDraw> residuals,
                                     const ResidualRule& rule, std::span<const double> reference_days)
    : StoppedByResidual{cohorts, rule} {
  for (const ResidualDraw& part : residuals) add(part.works, ResidualClock{reference_days, part.weeks, rule});
}

void StoppedByResidual::add(double works, const ResidualClock& clock) {
  Part part{works, {}};
  part.cubes.reserve(clock.decayed().size());
  for (const double left : clock.decayed()) part.cubes.push_back(cube_of(left));
  parts_.push_back(std::move(part));
}

double StoppedByResidual::on(Day day) const {
  if (parts_.empty() || !days_.contains(day)) return 0.0;
  const auto at = static_cast<std::size_t>((day - days_.begin()).count());
  if (at + 1 >= shares_.size()) return 0.0;
  std::span<const double> coming = std::span{shares_}.subspan(at + 1);
  const std::unique_ptr<double[]> room{new double[coming.size()]};  // not zeroed: written whole
  const std::span<double> passing{room.get(), coming.size()};
  for (const Part& part : parts_) {
    // dose_effect() of a day's dose as a share of the one put down, with the cube of that multiplied out:
    // cubes are taken once for all days of treatment.
    const double half = cube_of_half_ * part.cubes[at];
    const double works = part.works;
    const std::span<const double> cubes = std::span{part.cubes}.subspan(at + 1);
    for (std::size_t i = 0; i < passing.size(); ++i)
      passing[i] = coming[i] * (1.0 - works * (cubes[i] / (cubes[i] + half)));
    coming = passing;
  }
  return std::max(0.0, to_come_[at + 1] - sum_of(passing));
}

StandingPlants::StandingPlants(const SeasonCohorts& cohorts, const GrassControl& grass)
    : cohorts_{cohorts}, grass_{grass}, emerged_before_(cohorts.emerging_share.size() + 1, 0.0) {
  for (std::size_t i = 0; i < cohorts_.emerging_share.size(); ++i)
    emerged_before_[i + 1] = emerged_before_[i] + cohorts_.emerging_share[i];
}

double StandingPlants::warmest_of(std::size_t day, int days) const {
  if (!grass_.warmth) return 1.0;
  const std::size_t end = std::min(day + static_cast<std::size_t>(days), cohorts_.air_max.size());
  double warmth = warmth_after(cohorts_, grass_, day);
  for (std::size_t spray = day + 1; spray < end; ++spray)
    warmth = std::max(warmth, warmth_after(cohorts_, grass_, spray));
  return warmth;
}

std::optional<StandOfDay> StandingPlants::on(Day day, int days_to_choose_from) const {
  const auto at = index_in(cohorts_, day);
  if (!at) return std::nullopt;
  StandOfDay stand;
  const auto borders =
      emergence::stage_borders(cohorts_.thermal_age, *at, cohorts_.limits, cohorts_.age_unit);
  std::size_t end = *at + 1;
  for (std::size_t stage = 0; stage < emergence::stage_count; ++stage) {
    stand.up[stage] = emerged_before_[end] - emerged_before_[borders[stage]];
    end = borders[stage];
  }
  const auto young_days = static_cast<std::size_t>(grass_.young_up_to_days);
  stand.just_up = emerged_before_[*at + 1] - emerged_before_[*at >= young_days ? *at - young_days : 0];
  stand.warmth = warmest_of(*at, days_to_choose_from);
  return stand;
}

std::array<double, kind_count> control_of(const StandOfDay& stand, double stopped,
                                          const DrawnTreatment& treatment, const GrassControl& grass) {
  double killed = 0.0;
  for (std::size_t stage = 0; stage < stand.up.size(); ++stage)
    killed += stand.up[stage] * treatment.kill[stage].value();
  const double foliar = killed * stand.warmth;
  const double young = stand.just_up * grass.young_seedlings.value() * residual_works(treatment);
  const double cap = grass.cap.value();
  std::array<double, kind_count> control{};
  control[index_of(Kind::pre)] = std::min(young + stopped, cap);
  // Plants just up die of whichever part does more to them.
  const double young_by_foliar = stand.just_up * treatment.kill.front().value() * stand.warmth;
  control[index_of(Kind::pre_post)] =
      std::min(foliar + std::max(0.0, young - young_by_foliar) + stopped, cap);
  control[index_of(Kind::post)] = std::min(foliar, cap);
  return control;
}

ExpectedControl::ExpectedControl(const SeasonCohorts& cohorts, const DrawnTreatment& treatment,
                                 const GrassControl& grass, const ResidualRule& residual)
    : plants_{cohorts, grass},
      stopped_{cohorts, treatment.residuals, residual},
      treatment_{treatment},
      grass_{grass} {}

std::array<double, kind_count> ExpectedControl::on(Day day, int days_to_choose_from) const {
  const auto stand = plants_.on(day, days_to_choose_from);
  if (!stand) return {};
  return control_of(*stand, stopped_.on(day), treatment_, grass_);
}

std::vector<double> killed_of_those_up(const SeasonCohorts& cohorts, const DrawnTreatment& treatment,
                                       const GrassControl& grass, Kind kind, Day day) {
  std::vector<double> killed(cohorts.emerging_share.size(), 0.0);
  const auto at = index_in(cohorts, day);
  if (!at) return killed;
  if (has_foliar(kind)) {
    const double warmth = warmth_after(cohorts, grass, *at);
    const auto borders = emergence::stage_borders(cohorts.thermal_age, *at, cohorts.limits, cohorts.age_unit);
    std::size_t end = *at + 1;
    for (std::size_t stage = 0; stage < emergence::stage_count; ++stage) {
      for (std::size_t i = borders[stage]; i < end; ++i) killed[i] = treatment.kill[stage].value() * warmth;
      end = borders[stage];
    }
  }
  if (has_residual(kind)) {
    const auto young = static_cast<std::size_t>(grass.young_up_to_days);
    for (std::size_t i = *at >= young ? *at - young : 0; i <= *at; ++i)
      killed[i] = std::max(killed[i], grass.young_seedlings.value() * residual_works(treatment));
  }
  return killed;
}

}  // namespace soilclock::treatment
