// SPDX-License-Identifier: MIT
#include "treatment/week_kind.hpp"

#include <algorithm>

namespace soilclock::treatment {

namespace {

struct Choice {
  WeekKind kind;
  KindReason reason;
};

Choice chosen(const WeekReach& week, double foliar_adds, const ReachRules& rules,
              const ReachSettings& settings) {
  const double to_come = 1.0 - week.emerged.middle.value();
  if (week.logged_dose_left) {
    if (*week.logged_dose_left >= rules.residual.spent_below) {
      if (week.of(Kind::pre_post).middle <= settings.pre_alone_within_points) {
        return {WeekKind::hold, KindReason::residual_working};
      }
    } else if (to_come >= settings.second_pre_from.value()) {
      // Before the main wave is over the escapes are many: the second residual then needs a foliar part with
      // it.
      const bool many_up =
          week.emerged.middle < settings.post_from && foliar_adds > settings.pre_alone_within_points;
      if (many_up) return {WeekKind::pre_post, KindReason::logged_residual_spent};
      return {WeekKind::second_pre, KindReason::logged_residual_spent};
    }
  }
  if (week.emerged.middle.value() + week.soon.value() < settings.hold_below.value()) {
    return {WeekKind::hold, KindReason::too_early};
  }
  if (week.emerged.middle >= settings.post_from) return {WeekKind::post, KindReason::mostly_up};
  if (foliar_adds <= settings.pre_alone_within_points) return {WeekKind::pre, KindReason::residual_is_enough};
  return {WeekKind::pre_post, KindReason::both_needed};
}

}  // namespace

std::string_view name(WeekKind kind) {
  switch (kind) {
    case WeekKind::hold:
      return "hold";
    case WeekKind::pre:
      return "pre";
    case WeekKind::pre_post:
      return "pre+post";
    case WeekKind::post:
      return "post";
    case WeekKind::second_pre:
      break;
  }
  return "second-pre";
}

WeekVerdict kind_of_week(const WeekReach& week, const ReachRules& rules, const ReachSettings& settings) {
  WeekVerdict verdict;
  const double both = week.of(Kind::pre_post).middle;
  verdict.residual_would_add_points = std::max(0.0, both - week.of(Kind::post).middle);
  verdict.foliar_would_add_points = std::max(0.0, both - week.of(Kind::pre).middle);
  verdict.to_come_percent = 100.0 - week.emerged.middle.percent();
  const Choice choice = chosen(week, verdict.foliar_would_add_points, rules, settings);
  verdict.kind = choice.kind;
  verdict.reason = choice.reason;
  verdict.firm = choice.kind != WeekKind::second_pre ||
                 verdict.to_come_percent >= settings.second_pre_firm_from.percent();
  return verdict;
}

}  // namespace soilclock::treatment
