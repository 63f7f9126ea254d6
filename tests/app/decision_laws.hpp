// SPDX-License-Identifier: MIT
// What must hold for any decision, worked out again from the table of weeks by a short second route.
#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <optional>
#include <vector>

#include "advice/answer/answer.hpp"
#include "support/shipped_catalogue.hpp"

namespace soilclock::tests {

inline std::optional<double> score(const advice::TreatmentWeek& week, treatment::Kind kind) {
  const advice::KindInWeek& cell = week.of(kind);
  if (!cell.allowed) return std::nullopt;
  return cell.control.low + 0.5 * (cell.control.middle - cell.control.low);
}

/// Highest score of a kind in the weeks left, below zero when it is never allowed.
inline double best_score(const advice::TargetAnswer& answer, treatment::Kind kind) {
  double best = -1.0;
  for (const advice::WeekRow& row : answer.weeks) best = std::max(best, score(row.week, kind).value_or(-1.0));
  return best;
}

inline double best_score(const advice::TargetAnswer& answer) {
  double best = -1.0;
  for (const treatment::Kind kind : treatment::all_kinds) best = std::max(best, best_score(answer, kind));
  return best;
}

inline const advice::TreatmentWeek& week_of(const advice::TargetAnswer& answer, Day monday) {
  for (const advice::WeekRow& row : answer.weeks) {
    if (row.week.week_of == monday) return row.week;
  }
  FAIL("no week of " << iso(monday));
  return answer.weeks.front().week;
}

inline bool may_treat(const advice::Decision& decision) {
  return decision.action == advice::Action::treat || decision.action == advice::Action::any_week;
}

inline void check_kind(const advice::TargetAnswer& answer) {
  using treatment::Kind;
  const double worth = shipped_catalogue().practice.decision.part_worth;
  const Kind kind = *answer.decision.kind;
  const double best = best_score(answer);
  const double pre = best_score(answer, Kind::pre);
  const double post_now = score(answer.weeks.front().week, Kind::post).value_or(-1.0);
  const auto near = [&](double points) { return points >= worth && points >= best - worth; };
  if (near(pre))
    CHECK(kind == Kind::pre);
  else if (near(post_now))
    CHECK(kind == Kind::post);
  else
    CHECK(best_score(answer, kind) ==
          std::max(best_score(answer, Kind::pre_post), best_score(answer, Kind::post)));
}

inline void check_weeks_called_good(const advice::TargetAnswer& answer) {
  const auto& rules = shipped_catalogue().practice.decision;
  const advice::Decision& decision = answer.decision;
  const double best = best_score(answer, *decision.kind);
  const double floor = std::min(best_score(answer) - rules.good_through_best, best - rules.good_through_kind);
  REQUIRE(decision.best_range);
  REQUIRE(decision.good_through);
  CHECK(decision.best_range->last <= *decision.good_through);
  for (const advice::WeekRow& row : answer.weeks) {
    const auto here = score(row.week, *decision.kind);
    const Day monday = row.week.week_of;
    CAPTURE(iso(monday));
    if (decision.best_range->first <= monday && monday <= decision.best_range->last) {
      REQUIRE(here);
      CHECK(*here >= best - rules.range_bridge);
    }
    if (decision.best_range->last <= monday && monday <= *decision.good_through) {
      REQUIRE(here);
      CHECK(*here >= floor);
    }
  }
}

inline void check_action(const advice::TargetAnswer& answer) {
  const auto& rules = shipped_catalogue().practice.decision;
  const advice::Decision& decision = answer.decision;
  const auto now = score(answer.weeks.front().week, *decision.kind);
  const double best = best_score(answer, *decision.kind);
  if (decision.action == advice::Action::wait) {
    CHECK((!now || best - *now >= rules.part_worth));
    return;
  }
  REQUIRE(now);
  CHECK(best - *now < rules.part_worth);
  CHECK(best_score(answer) - best <= rules.part_worth);
  CHECK(decision.control->middle == answer.weeks.front().week.of(*decision.kind).control.middle);
  if (decision.action == advice::Action::treat) CHECK(best - *now <= rules.range_bridge);
}

inline void check_costs(const advice::Decision& decision) {
  double before = 0.0;
  for (const auto& cost : decision.cost_of_waiting) {
    if (!cost) continue;
    CHECK(*cost >= before);
    before = *cost;
  }
}

/// All of it, for decisions that name something to do this season.
inline void check_laws(const advice::TargetAnswer& answer) {
  check_costs(answer.decision);
  if (answer.decision.action != advice::Action::wait && !may_treat(answer.decision)) return;
  REQUIRE(!answer.weeks.empty());
  REQUIRE(answer.decision.kind);
  check_kind(answer);
  check_weeks_called_good(answer);
  check_action(answer);
}

}  // namespace soilclock::tests
