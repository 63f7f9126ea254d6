// SPDX-License-Identifier: MIT
#include "treatment/reach.hpp"

#include <algorithm>

namespace soilclock::treatment {

namespace {

Reach capped(double foliar, double residual, double cap) {
  const double sum = foliar + residual;
  if (sum <= cap) return {sum, foliar, residual};
  return {cap, foliar * cap / sum, residual * cap / sum};
}

}  // namespace

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

ReachTable::ReachTable(const SeasonCohorts& cohorts, const Treatment& treatment, const ReachRules& rules)
    : cohorts_{cohorts},
      treatment_{treatment},
      rules_{&rules},
      clock_{cohorts.soil, std::max(treatment.residual_weeks, least_residual_weeks), rules.residual},
      emerged_before_(cohorts.emerging_share.size() + 1, 0.0) {
  for (std::size_t i = 0; i < cohorts_.emerging_share.size(); ++i) {
    emerged_before_[i + 1] = emerged_before_[i] + cohorts_.emerging_share[i];
  }
}

std::optional<std::size_t> ReachTable::index(Day day) const {
  const auto days = (day - cohorts_.first).count();
  if (days < 0 || days >= static_cast<long>(cohorts_.emerging_share.size())) return std::nullopt;
  return static_cast<std::size_t>(days);
}

double ReachTable::warmth_on(std::size_t day) const {
  const auto& rule = rules_->kill.warmth;
  if (!rule) return 1.0;
  const std::size_t end = std::min(day + static_cast<std::size_t>(rule->days), cohorts_.air_max.size());
  double sum = 0.0;
  for (std::size_t i = day; i < end; ++i) sum += cohorts_.air_max[i].celsius();
  return warmth_factor(Temperature::from_celsius(sum / static_cast<double>(end - day)), *rule);
}

ReachTable::Foliar ReachTable::foliar_on(std::size_t day) const {
  const auto& ages = cohorts_.thermal_age_c_days;
  const KillMatrix& matrix = rules_->kill;
  Foliar foliar;
  foliar.up = emerged_before_[day + 1];
  foliar.warmth = warmth_on(day);
  // Thermal age never falls, so the cohorts of one stage are neighbours: walk the class borders from young to
  // old.
  std::size_t younger_than = day + 1;
  for (std::size_t stage = 0; stage < stage_count; ++stage) {
    std::size_t from = 0;
    if (stage + 1 < stage_count) {
      const double oldest = ages[day] - matrix.limits.phyllochrons[stage] * cohorts_.phyllochron_c_days;
      const auto border =
          std::lower_bound(ages.begin(), ages.begin() + static_cast<long>(younger_than), oldest);
      from = static_cast<std::size_t>(border - ages.begin());
    }
    const double share = emerged_before_[younger_than] - emerged_before_[from];
    foliar.warm += share * matrix.of(treatment_.partner, static_cast<StageClass>(stage)).value();
    younger_than = from;
  }
  const double works = 1.0 - treatment_.foliar_failure.value();
  foliar.ideal = works * foliar.up * matrix.of(treatment_.partner, StageClass::leaves_1_3).value();
  foliar.warm *= works;
  return foliar;
}

double ReachTable::young_on(std::size_t day) const {
  const auto days = static_cast<std::size_t>(rules_->kill.young_up_to_days);
  const std::size_t from = day >= days ? day - days : 0;
  const bool active = treatment_.residual_weeks >= least_residual_weeks && treatment_.activation_delay_days;
  if (!active) return 0.0;
  return (emerged_before_[day + 1] - emerged_before_[from]) * rules_->kill.young_seedlings.value() *
         (1.0 - treatment_.residual_failure.value());
}

/// Dose left on a later day is this factor x what has decayed since day 0; a second dose adds to the first.
double ReachTable::dose_factor(std::size_t applied, std::size_t on) const {
  const auto decayed = clock_.decayed();
  double factor = treatment_.first_dose / decayed[applied];
  if (treatment_.second_dose) {
    const std::size_t second = applied + static_cast<std::size_t>(treatment_.second_dose->days_later);
    if (second < on) factor += treatment_.second_dose->share_of_dose / decayed[second];
  }
  return factor;
}

/// Seedlings of the days [from, to) killed by the residual, its failure share not yet taken off.
double ReachTable::residual_kill(std::size_t from, std::size_t to, double dose_factor) const {
  const auto decayed = clock_.decayed();
  const double half = rules_->residual.dose_of_half_efficacy;
  const double half_cube = half * half * half;
  double sum = 0.0;
  for (std::size_t i = from; i < to; ++i) {
    const double dose = decayed[i] * dose_factor;
    const double cube = dose * dose * dose;
    sum += cohorts_.emerging_share[i] * cube / (cube + half_cube);
  }
  return sum * rules_->residual.greatest_efficacy;
}

ReachTable::Row ReachTable::on(Day day) const {
  Row row;
  const auto at = index(day);
  if (!at) return row;
  const std::size_t days = cohorts_.emerging_share.size();
  const Foliar foliar = foliar_on(*at);
  const double to_come = emerged_before_[days] - foliar.up;

  double active = 0.0;
  if (treatment_.residual_weeks >= least_residual_weeks && treatment_.activation_delay_days) {
    const std::size_t from =
        std::min(*at + 1 + static_cast<std::size_t>(*treatment_.activation_delay_days), days);
    std::size_t second = days;
    if (treatment_.second_dose) {
      second = std::clamp(*at + 1 + static_cast<std::size_t>(treatment_.second_dose->days_later), from, days);
    }
    active = residual_kill(from, second, dose_factor(*at, from));
    if (second < days) active += residual_kill(second, days, dose_factor(*at, second));
  }
  const double residual = active * (1.0 - treatment_.residual_failure.value());
  const double killed_up = foliar.warm * foliar.warmth;
  const double cap = rules_->kill.cap.value();

  row.reach[static_cast<std::size_t>(Kind::pre)] = capped(young_on(*at), residual, cap);
  row.reach[static_cast<std::size_t>(Kind::pre_post)] = capped(killed_up, residual, cap);
  row.reach[static_cast<std::size_t>(Kind::post)] = capped(killed_up, 0.0, cap);
  row.losses = {foliar.up,
                to_come,
                foliar.ideal - foliar.warm,
                foliar.warm - killed_up,
                to_come * rules_->residual.greatest_efficacy - active,
                active - residual};
  return row;
}

std::vector<double> ReachTable::killed_by_cohort(Kind kind, Day day) const {
  std::vector<double> killed(cohorts_.emerging_share.size(), 0.0);
  const auto at = index(day);
  if (!at) return killed;
  if (kind != Kind::pre) {
    const double works = warmth_on(*at) * (1.0 - treatment_.foliar_failure.value());
    for (std::size_t i = 0; i <= *at; ++i) {
      const double age = cohorts_.thermal_age_c_days[*at] - cohorts_.thermal_age_c_days[i];
      const StageClass stage = stage_of(age, cohorts_.phyllochron_c_days, rules_->kill.limits);
      killed[i] = rules_->kill.of(treatment_.partner, stage).value() * works;
    }
  }
  if (kind == Kind::post || treatment_.residual_weeks < least_residual_weeks ||
      !treatment_.activation_delay_days) {
    return killed;
  }
  const double works = 1.0 - treatment_.residual_failure.value();
  if (kind == Kind::pre) {
    const auto young = static_cast<std::size_t>(rules_->kill.young_up_to_days);
    for (std::size_t i = *at >= young ? *at - young : 0; i <= *at; ++i) {
      killed[i] = rules_->kill.young_seedlings.value() * works;
    }
  }
  for (std::size_t i = *at + 1 + static_cast<std::size_t>(*treatment_.activation_delay_days);
       i < killed.size(); ++i) {
    killed[i] = efficacy(clock_.decayed()[i] * dose_factor(*at, i), rules_->residual) * works;
  }
  return killed;
}

Reach reach(const SeasonCohorts& cohorts, const Treatment& treatment, Day day, const ReachRules& rules) {
  return ReachTable{cohorts, treatment, rules}.on(day).of(treatment.kind);
}

}  // namespace soilclock::treatment
