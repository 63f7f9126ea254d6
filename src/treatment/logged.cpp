// SPDX-License-Identifier: MIT
#include "treatment/logged.hpp"

namespace soilclock::treatment {

namespace {

Treatment as_seen_by(const LoggedApplication& application, const MemberDraw& draw) {
  Treatment treatment;
  treatment.kind = application.kind;
  treatment.partner = application.partner.value_or(draw.partner);
  treatment.residual_weeks = application.residual_weeks.value_or(draw.residual_weeks);
  treatment.foliar_failure = draw.foliar_failure;
  treatment.residual_failure = draw.residual_failure;
  treatment.activation_delay_days = application.activation_delay_days;
  return treatment;
}

DayRange season_days(const SeasonCohorts& cohorts) {
  return {cohorts.first, cohorts.first + Days{static_cast<int>(cohorts.emerging_share.size())}};
}

std::size_t index_in(const DayRange& season, Day day) {
  return static_cast<std::size_t>((day - season.begin()).count());
}

}  // namespace

LoggedDoses::LoggedDoses(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged,
                         const MemberDraw& draw, const ReachRules& rules)
    : season_{season_days(cohorts)} {
  for (const LoggedApplication& application : logged) {
    const Treatment treatment = as_seen_by(application, draw);
    const bool leaves_residual =
        application.kind != Kind::post && treatment.residual_weeks >= least_residual_weeks;
    if (!leaves_residual || !season_.contains(application.day)) continue;
    const auto& delay = application.activation_delay_days;
    doses_.push_back({index_in(season_, application.day), delay ? application.share_of_dose : 0.0,
                      static_cast<std::size_t>(delay.value_or(0)),
                      ResidualClock{cohorts.soil, treatment.residual_weeks, rules.residual}});
  }
}

std::optional<double> LoggedDoses::left_on(Day day) const {
  std::optional<double> left;
  if (!season_.contains(day)) return left;
  const std::size_t today = index_in(season_, day);
  for (const Dose& dose : doses_) {
    if (dose.applied <= today) left = left.value_or(0.0) + dose.share * dose.clock.left(dose.applied, today);
  }
  return left;
}

double LoggedDoses::acting_on(std::size_t day) const {
  double acting = 0.0;
  for (const Dose& dose : doses_) {
    if (dose.applied + dose.delay < day) acting += dose.share * dose.clock.left(dose.applied, day);
  }
  return acting;
}

std::vector<double> surviving_shares(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged,
                                     const MemberDraw& draw, const ReachRules& rules) {
  std::vector<double> left{cohorts.emerging_share.begin(), cohorts.emerging_share.end()};
  const DayRange season = season_days(cohorts);
  for (const LoggedApplication& application : logged) {
    if (!season.contains(application.day)) continue;
    const ReachTable table{cohorts, as_seen_by(application, draw), rules};
    const std::vector<double> killed = table.killed_by_cohort(application.kind, application.day);
    const std::size_t up_to = index_in(season, application.day);
    for (std::size_t i = 0; i <= up_to; ++i) left[i] *= 1.0 - killed[i];
  }
  const LoggedDoses doses{cohorts, logged, draw, rules};
  const double works = 1.0 - draw.residual_failure.value();
  for (std::size_t i = 0; i < left.size(); ++i) {
    left[i] *= 1.0 - works * efficacy(doses.acting_on(i), rules.residual);
  }
  return left;
}

}  // namespace soilclock::treatment
