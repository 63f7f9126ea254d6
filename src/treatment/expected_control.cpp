// SPDX-License-Identifier: MIT
#include "treatment/expected_control.hpp"

#include <algorithm>

#include "core/by_processor.hpp"
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

constexpr std::size_t lanes = 4;  ///< sums side by side, so that no addition waits for the one before it

/// Sum over some days of the share coming up that gets past a residual. dose_effect() of a day's dose as a
/// share of the one put down, with the cube of that multiplied out: cubes are taken once for all days of
/// treatment. `half`: the cube of the dose of half efficacy times that of the dose on the day of treatment.
SOILCLOCK_BY_PROCESSOR
double passing_sum(std::span<const double> coming, std::span<const double> cubes, double works, double half) {
  const double* const share = coming.data();
  const double* const cube = cubes.data();
  const std::size_t whole = coming.size() / lanes * lanes;
  std::array<double, lanes> sums{};
  for (std::size_t i = 0; i < whole; i += lanes) {
    for (std::size_t lane = 0; lane < lanes; ++lane)
      sums[lane] += share[i + lane] * (1.0 - works * (cube[i + lane] / (cube[i + lane] + half)));
  }
  for (std::size_t i = whole; i < coming.size(); ++i)
    sums[0] += share[i] * (1.0 - works * (cube[i] / (cube[i] + half)));
  return (sums[0] + sums[1]) + (sums[2] + sums[3]);
}

/// The shares themselves, of a residual below which others still work.
std::vector<double> passing(std::span<const double> coming, std::span<const double> cubes, double works,
                            double half) {
  std::vector<double> shares(coming.size());
  for (std::size_t i = 0; i < shares.size(); ++i)
    shares[i] = coming[i] * (1.0 - works * (cubes[i] / (cubes[i] + half)));
  return shares;
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

ComingSeedlings::ComingSeedlings(const SeasonCohorts& cohorts) : days_{cohorts.days()} {
  shares_.assign(cohorts.emerging_share.begin(), cohorts.emerging_share.end());
  for (double& share : shares_) share = std::max(share, 0.0);
  while (!shares_.empty() && shares_.back() == 0.0) shares_.pop_back();
  while (first_ < shares_.size() && shares_[first_] == 0.0) ++first_;
  to_come_.resize(shares_.size() + 1, 0.0);
  for (std::size_t i = shares_.size(); i-- > 0;) to_come_[i] = to_come_[i + 1] + shares_[i];
}

StoppedByResidual::StoppedByResidual(const ComingSeedlings& coming, std::span<const Temperature> soil,
                                     std::span<const ResidualDraw> residuals, const ResidualRule& rule)
    : coming_{coming}, cube_of_half_{cube_of(rule.dose_of_half_efficacy)} {
  for (const ResidualDraw& part : residuals)
    add(part.works, ResidualClock{soil, part.weeks, part.activation_energy_j_per_mol, rule});
}

StoppedByResidual::StoppedByResidual(const ComingSeedlings& coming, std::span<const ResidualDraw> residuals,
                                     const ResidualRule& rule, std::span<const double> reference_days,
                                     Day from)
    : coming_{coming}, cube_of_half_{cube_of(rule.dose_of_half_efficacy)} {
  const auto after =
      std::clamp<std::ptrdiff_t>((from - coming.days_.begin()).count(), 0, std::ssize(coming.shares_));
  from_ = static_cast<std::size_t>(after);
  for (const ResidualDraw& part : residuals) {
    add(part.works,
        ResidualClock{reference_days.subspan(from_, coming.shares_.size() - from_), part.weeks, rule});
  }
}

void StoppedByResidual::add(double works, const ResidualClock& clock) {
  Part part{works, {clock.decayed().begin(), clock.decayed().end()}};
  for (double& left : part.cubes) left = cube_of(left);
  parts_.push_back(std::move(part));
}

double StoppedByResidual::on(Day day) const {
  if (parts_.empty() || !coming_.days_.contains(day)) return 0.0;
  const auto at = static_cast<std::size_t>((day - coming_.days_.begin()).count());
  if (at + 1 >= coming_.shares_.size()) return 0.0;
  // Days on which nothing comes up yet add nothing; whole rounds of lanes are left out.
  std::size_t begin = at + 1;
  if (begin < coming_.first_) begin += (coming_.first_ - begin) / lanes * lanes;
  std::span<const double> coming = std::span{coming_.shares_}.subspan(begin);
  const auto half_of = [&](const Part& part) { return cube_of_half_ * part.cubes[at - from_]; };
  const auto cubes_of = [&](const Part& part) {
    return std::span{part.cubes}.subspan(begin - from_, coming.size());
  };
  std::vector<double> room;
  for (std::size_t i = 0; i + 1 < parts_.size(); ++i) {
    room = passing(coming, cubes_of(parts_[i]), parts_[i].works, half_of(parts_[i]));
    coming = room;
  }
  const Part& last = parts_.back();
  return std::max(0.0,
                  coming_.to_come_[at + 1] - passing_sum(coming, cubes_of(last), last.works, half_of(last)));
}

double warmth_of_foliar(const SeasonCohorts& cohorts, const GrassControl& grass, Day day,
                        int days_to_choose_from) {
  const auto first = index_in(cohorts, day);
  if (!first || !grass.warmth) return 1.0;
  const std::size_t end =
      std::min(*first + static_cast<std::size_t>(days_to_choose_from), cohorts.air_max.size());
  double warmth = warmth_after(cohorts, grass, *first);
  for (std::size_t spray = *first + 1; spray < end; ++spray)
    warmth = std::max(warmth, warmth_after(cohorts, grass, spray));
  return warmth;
}

StandingPlants::StandingPlants(const SeasonCohorts& cohorts, const GrassControl& grass)
    : cohorts_{cohorts}, grass_{grass}, emerged_before_(cohorts.emerging_share.size() + 1, 0.0) {
  for (std::size_t i = 0; i < cohorts_.emerging_share.size(); ++i)
    emerged_before_[i + 1] = emerged_before_[i] + cohorts_.emerging_share[i];
}

std::optional<StandOfDay> StandingPlants::on(Day day, double warmth) const {
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
  stand.warmth = warmth;
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
    : cohorts_{cohorts},
      plants_{cohorts, grass},
      coming_{cohorts},
      stopped_{coming_, cohorts.soil, treatment.residuals, residual},
      treatment_{treatment},
      grass_{grass} {}

std::array<double, kind_count> ExpectedControl::on(Day day, int days_to_choose_from) const {
  const auto stand = plants_.on(day, warmth_of_foliar(cohorts_, grass_, day, days_to_choose_from));
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
