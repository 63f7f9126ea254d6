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
  return treatment;
}

}  // namespace

std::vector<double> surviving_shares(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged,
                                     const MemberDraw& draw, const ReachRules& rules) {
  std::vector<double> left{cohorts.emerging_share.begin(), cohorts.emerging_share.end()};
  for (const LoggedApplication& application : logged) {
    const ReachTable table{cohorts, as_seen_by(application, draw), rules};
    const std::vector<double> killed = table.killed_by_cohort(application.kind, application.day);
    for (std::size_t i = 0; i < left.size(); ++i) left[i] *= 1.0 - killed[i];
  }
  return left;
}

LoggedDoses::LoggedDoses(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged,
                         const MemberDraw& draw, const ReachRules& rules)
    : season_{cohorts.first, cohorts.first + Days{static_cast<int>(cohorts.soil.size())}} {
  for (const LoggedApplication& application : logged) {
    const Treatment treatment = as_seen_by(application, draw);
    const bool leaves_residual =
        application.kind != Kind::post && treatment.residual_weeks >= least_residual_weeks;
    if (!leaves_residual || !season_.contains(application.day)) continue;
    doses_.push_back({static_cast<std::size_t>((application.day - season_.begin()).count()),
                      ResidualClock{cohorts.soil, treatment.residual_weeks, rules.residual}});
  }
}

std::optional<double> LoggedDoses::left_on(Day day) const {
  std::optional<double> left;
  if (!season_.contains(day)) return left;
  const auto today = static_cast<std::size_t>((day - season_.begin()).count());
  for (const Dose& dose : doses_) {
    if (dose.applied <= today) left = left.value_or(0.0) + dose.clock.left(dose.applied, today);
  }
  return left;
}

}  // namespace soilclock::treatment
