// SPDX-License-Identifier: MIT
#include "advice/answer/next_look.hpp"

#include <algorithm>

namespace soilclock::advice {

namespace {

/// A year after this season began to matter: some weeks before its first seedlings.
std::optional<DatedReason> next_season(const TargetAnswer& answer, SeasonKind kind, Day on,
                                       const DecisionRules& rules) {
  if (answer.windows.empty() || !answer.windows.front().opens.middle) return std::nullopt;
  Day day = *answer.windows.front().opens.middle;
  if (kind == SeasonKind::summer) day -= Days{rules.summer_look_earlier_days};
  while (day <= on) {
    const CivilDate date = civil(day);
    day = make_day(date.year + 1, date.month, std::min(date.day, 28U));
  }
  return DatedReason{day, "ask again for next season"};
}

DatedReason before_best_weeks(const TargetAnswer& answer, Day on, const DecisionRules& rules) {
  const Day ahead = answer.decision.best_range->first - Days{rules.look_from_days};
  if (ahead > on + one_week) return {ahead, "ask again, two weeks before the best weeks"};
  return {monday_of(on) + one_week, "ask again, the weather may move the best weeks"};
}

}  // namespace

std::optional<DatedReason> next_look(const TargetAnswer& answer, SeasonKind kind, Day on,
                                     const DecisionRules& rules) {
  const Days look_from{rules.look_from_days};
  switch (answer.decision.action) {
    case Action::treat:
      return DatedReason{on + look_from, "scout for survivors"};
    case Action::any_week: {
      const Day last = answer.decision.good_through.value_or(on);
      return DatedReason{std::max(std::min(monday_of(on) + 2 * one_week, last), monday_of(on) + one_week),
                         "ask again, the weather may move the best weeks"};
    }
    case Action::wait:
      return before_best_weeks(answer, on, rules);
    case Action::hold_after_treatment:
      if (!answer.after || !answer.after->look) return std::nullopt;
      return DatedReason{std::max(answer.after->look->begin(), on), "scout for survivors"};
    case Action::scout:
      return DatedReason{on, "scout before you choose"};
    case Action::no_single_week:
      return DatedReason{on + look_from, "scout for new seedlings"};
    case Action::nothing_left:
      return next_season(answer, kind, on, rules);
    case Action::no_answer:
      break;
  }
  return std::nullopt;
}

}  // namespace soilclock::advice
