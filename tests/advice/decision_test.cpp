// SPDX-License-Identifier: MIT
// The laws of the decision, on random tables and on every small one.
#include "advice/decision/decision.hpp"

#include <rapidcheck/catch.h>

#include <functional>

#include "plain_decision.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;
using treatment::Kind;

namespace {

/// A table with its decision and the same found the long way round.
struct Case {
  const Weeks& table;
  const Decision& decision;
  const DecisionRules& rules;
  PlainDecision plain{table, rules};

  bool named() const { return decision.kind.has_value(); }
  std::optional<double> now() const { return table.front().score(*decision.kind); }
  bool this_week() const { return decision.best_range->first == table.front().week_of; }
};

struct Law {
  const char* says;
  std::function<bool(const Case&)> holds;
};

bool same(const Band<double>& a, const Band<double>& b) {
  return a.low == b.low && a.middle == b.middle && a.high == b.high;
}

/// Whether a cell named by a decision is in the table as it says.
bool in_table(const Weeks& table, const KindAndWeek& named) {
  return std::any_of(table.begin(), table.end(), [&](const TreatmentWeek& week) {
    return week.week_of == named.week_of && week.of(named.kind).allowed &&
           same(week.of(named.kind).control, named.control);
  });
}

double score_of(const KindAndWeek& named) { return 0.5 * (named.control.low + named.control.middle); }

bool wait_gains(const Case& c) {
  if (c.decision.action != Action::wait) return true;
  if (!c.named() || c.this_week() || c.decision.best_range->first <= c.table.front().week_of) return false;
  if (!c.now()) return true;  // a gate
  return std::any_of(c.table.begin(), c.table.end(), [&](const TreatmentWeek& week) {
    return week.week_of >= c.decision.best_range->first &&
           week.score(*c.decision.kind).value_or(none) >= *c.now() + c.rules.part_worth;
  });
}

bool costs_rise(const Case& c) {
  double before = 0.0;
  bool over = false;
  for (const auto& cost : c.decision.cost_of_waiting) {
    if (cost && (over || *cost < before)) return false;
    over = over || !cost;
    before = cost.value_or(before);
  }
  return true;
}

bool costs_agree(const Case& c) {
  for (int waited = 1; waited <= 3; ++waited) {
    const auto& cost = c.decision.cost_of_waiting[static_cast<std::size_t>(waited - 1)];
    const bool shown = c.named() && c.decision.action != Action::wait;
    if (cost != (shown ? c.plain.cost(waited) : std::nullopt)) return false;
  }
  return true;
}

bool no_gated_week_in_spans(const Case& c) {
  if (!c.named()) return true;
  return std::all_of(c.table.begin(), c.table.end(), [&](const TreatmentWeek& week) {
    const bool inside =
        c.decision.best_range->first <= week.week_of && week.week_of <= *c.decision.good_through;
    return !inside || week.of(*c.decision.kind).allowed;
  });
}

bool then_follows(const Case& c) {
  const auto& then = c.decision.then;
  if (!then) return !c.decision.then_as_good;
  if (!in_table(c.table, *then) || then->week_of <= *c.decision.good_through) return false;
  if (c.decision.then_as_good) {
    return c.decision.kind == Kind::pre && then->kind == Kind::pre_post &&
           score_of(*then) >= c.plain.best() - c.rules.part_worth;
  }
  const int after = static_cast<int>((*c.decision.good_through - c.table.front().week_of).count() / 7) + 1;
  // An extra part must earn its points there, too.
  return score_of(*then) >= c.plain.best_from(after) - c.rules.part_worth &&
         c.plain.best_from(after) >= c.rules.part_worth;
}

bool close_call_is_one(const Case& c) {
  const double below = c.plain.best() - c.plain.best_of(Kind::pre);
  const bool close = c.named() && c.plain.best_of(Kind::pre) >= c.rules.part_worth &&
                     below >= c.rules.close_call_least && below <= c.rules.close_call_most;
  if (close != c.decision.close_call.has_value()) return false;
  if (!close) return true;
  const KindAndWeek& other = *c.decision.close_call;
  const double expected = c.decision.kind == Kind::pre ? c.plain.best() : c.plain.best_of(Kind::pre);
  return in_table(c.table, other) && score_of(other) == expected && other.kind != c.decision.kind;
}

bool control_is_of_the_named_kind(const Case& c) {
  if (!c.named()) return !c.decision.control;
  const int week = c.decision.action == Action::wait ? c.plain.best_week() : 0;
  return c.decision.control &&
         same(*c.decision.control, c.table[static_cast<std::size_t>(week)].of(*c.decision.kind).control);
}

const std::vector<Law>& laws() {
  static const std::vector<Law> all{
      {"the named kind follows the rule", [](const Case& c) { return c.decision.kind == c.plain.kind(); }},
      {"the action follows the rule", [](const Case& c) { return c.decision.action == c.plain.action(); }},
      {"the best range follows the rule",
       [](const Case& c) {
         return !c.named() || (c.decision.best_range->first == monday(c.plain.range().first) &&
                               c.decision.best_range->last == monday(c.plain.range().second));
       }},
      {"good through follows the rule",
       [](const Case& c) { return !c.named() || c.decision.good_through == monday(c.plain.good_through()); }},
      {"costs of waiting are this week's score less the best left then, and not shown with wait",
       costs_agree},
      {"wait names later weeks with at least five points more of the named kind, or there is a gate",
       wait_gains},
      {"treat is never more than a point below the best of its kind",
       [](const Case& c) {
         return c.decision.action != Action::treat ||
                *c.now() >= c.plain.best_of(*c.decision.kind) - c.rules.range_within;
       }},
      {"the best of the named kind is never more than five points below the best of all",
       [](const Case& c) {
         return !c.named() || c.plain.best_of(*c.decision.kind) >= c.plain.best() - c.rules.part_worth;
       }},
      {"no treat and no any-week in a gated week",
       [](const Case& c) {
         const bool go = c.decision.action == Action::treat || c.decision.action == Action::any_week;
         return !go || c.now().has_value();
       }},
      {"any-week is less than five points below the best of its kind",
       [](const Case& c) {
         return c.decision.action != Action::any_week ||
                c.plain.best_of(*c.decision.kind) - *c.now() < c.rules.part_worth;
       }},
      {"the best range lies inside good through and begins this week or later",
       [](const Case& c) {
         return !c.named() || (c.decision.best_range->first >= c.table.front().week_of &&
                               c.decision.best_range->first <= c.decision.best_range->last &&
                               c.decision.best_range->last <= *c.decision.good_through);
       }},
      {"a gate ends best range and good through", no_gated_week_in_spans},
      {"costs of waiting never fall, are never negative, and do not come back once no week is left",
       costs_rise},
      {"what comes then is the next as good, or the best still to be had", then_follows},
      {"a close call names the other kind when pre is four to six points below the best", close_call_is_one},
      {"control is that of the named kind this week, or in its best week when waiting",
       control_is_of_the_named_kind},
      {"urgency is what three idle weeks cost, never below none",
       [](const Case& c) {
         return c.decision.urgency == c.plain.best() - std::fmax(0.0, c.plain.best_from(3)) &&
                c.decision.urgency >= 0.0;
       }},
      {"nothing left names no kind, no weeks and no costs",
       [](const Case& c) {
         return c.decision.action != Action::nothing_left ||
                (!c.named() && !c.decision.best_range && !c.decision.good_through && !c.decision.then &&
                 !c.decision.cost_of_waiting[0]);
       }},
      {"somebody who does as told treats this week or has a better one ahead", [](const Case& c) {
         if (!c.named()) return true;
         const bool called = calls_for_treatment(c.decision, c.table.front().week_of);
         return called == (c.decision.action != Action::wait && c.this_week());
       }}};
  return all;
}

}  // namespace

TEST_CASE("the laws of the decision hold on random tables") {
  for (const Law& law : laws()) {
    rc::prop(law.says, [&law] {
      const Weeks table = any_table();
      const Decision decision = decided(table);
      RC_LOG() << shown(table) << shown(decision);
      RC_ASSERT(law.holds({table, decision, shipped_rules()}));
    });
  }
}

TEST_CASE("the laws of the decision hold on every table of three weeks around the limits") {
  // Pre and pre+post take each of these scores, or are gated, in each week; post is one of four courses.
  const std::vector<double> scores{gated, 4.0, 66.0, 69.0, 71.0};
  const std::vector<std::vector<double>> posts{{}, {67.0}, {75.5}, {gated, gated, 70.5}};
  const int count = static_cast<int>(scores.size());
  std::vector<int> digits(6, 0);
  int tables = 0;
  bool more = true;
  while (more) {
    const auto score = [&](std::size_t place) { return scores[static_cast<std::size_t>(digits[place])]; };
    for (const std::vector<double>& post : posts) {
      const Weeks table = weeks({{score(0), score(1), score(2)}, {score(3), score(4), score(5)}, post});
      const Decision decision = decided(table);
      ++tables;
      for (const Law& law : laws()) {
        if (law.holds({table, decision, shipped_rules()})) continue;
        INFO(shown(table) << shown(decision));
        FAIL(law.says);
      }
    }
    // The next number of six digits.
    std::size_t place = 0;
    while (place < digits.size() && ++digits[place] == count) digits[place++] = 0;
    more = place < digits.size();
  }
  CHECK(tables == 4 * 15625);
}

TEST_CASE("the same table gives the same decision, and a copy of it too") {
  rc::prop("same table, same answer", [] {
    const Weeks table = any_table();
    const Weeks copy = table;
    RC_ASSERT(shown(decided(table)) == shown(decided(table)));
    RC_ASSERT(shown(decided(table)) == shown(decided(copy)));
  });
}

TEST_CASE("a decision moves with its table") {
  rc::prop("the same season in other weeks", [] {
    const Weeks table = any_table();
    Weeks later = table;
    const Days moved{7 * *rc::gen::inRange(-60, 60)};
    for (TreatmentWeek& week : later) week.week_of += moved;
    RC_ASSERT(shown(decided(later)) == shown(decided(table), moved));
  });
  rc::prop("points and limits twice as large change nothing but the points", [] {
    const Weeks table = any_table();
    Weeks doubled = table;
    for (TreatmentWeek& week : doubled) {
      for (KindInWeek& kind : week.kinds) {
        kind.control = {2.0 * kind.control.low, 2.0 * kind.control.middle, 2.0 * kind.control.high};
      }
    }
    DecisionRules rules = shipped_rules();
    for (double* points : {&rules.part_worth, &rules.range_bridge, &rules.range_within,
                           &rules.good_through_best, &rules.good_through_kind, &rules.hurry, &rules.late,
                           &rules.close_call_least, &rules.close_call_most}) {
      *points *= 2.0;
    }
    Decision twice = decide(doubled, {}, rules);
    const Decision once = decided(table);
    RC_ASSERT(twice.action == once.action);
    RC_ASSERT(twice.kind == once.kind);
    RC_ASSERT(twice.urgency == 2.0 * once.urgency);
    RC_ASSERT(twice.good_through == once.good_through);
    if (once.kind) {
      RC_ASSERT(twice.best_range->first == once.best_range->first);
      RC_ASSERT(twice.best_range->last == once.best_range->last);
    }
    RC_ASSERT(twice.then.has_value() == once.then.has_value());
    RC_ASSERT(twice.close_call.has_value() == once.close_call.has_value());
    for (std::size_t i = 0; i < once.cost_of_waiting.size(); ++i) {
      RC_ASSERT(twice.cost_of_waiting[i].has_value() == once.cost_of_waiting[i].has_value());
      if (once.cost_of_waiting[i]) RC_ASSERT(*twice.cost_of_waiting[i] == 2.0 * *once.cost_of_waiting[i]);
    }
  });
}

TEST_CASE("order: what makes this week better never makes it wait") {
  rc::prop("more points of the named kind this week keep treat", [] {
    Weeks table = any_table();
    const Decision before = decided(table);
    RC_PRE(before.action == Action::treat);
    Band<double>& now = table.front().of(*before.kind).control;
    const double more = 0.25 * *rc::gen::inRange(1, 40);
    now = {now.low + more, now.middle + more, now.high + more};
    const Decision after = decided(table);
    RC_ASSERT(after.action == Action::treat);
    RC_ASSERT(after.kind == before.kind);
  });
  rc::prop("weeks in which nothing is allowed change nothing at the end of a table", [] {
    const Weeks table = any_table();
    Weeks longer = table;
    const int more = *rc::gen::inRange(1, 5);
    for (int i = 0; i < more; ++i) {
      TreatmentWeek closed;
      closed.week_of = longer.back().week_of + Days{7};
      for (KindInWeek& kind : closed.kinds) kind = {{90.0, 95.0, 95.0}, false};
      longer.push_back(closed);
    }
    RC_ASSERT(shown(decided(longer)) == shown(decided(table)));
  });
  rc::prop("what a gated kind would have done does not matter", [] {
    const Weeks table = any_table();
    Weeks other = table;
    for (TreatmentWeek& week : other) {
      for (KindInWeek& kind : week.kinds) {
        if (!kind.allowed) kind.control = {50.0, 60.0, 70.0};
      }
    }
    RC_ASSERT(shown(decided(other)) == shown(decided(table)));
  });
}

TEST_CASE("weeks that have passed only say whether the best is over") {
  rc::prop("late when the best passed week was more than five points better", [] {
    const Weeks table = any_table();
    Weeks passed = any_table();
    for (TreatmentWeek& week : passed) week.week_of -= Days{7 * static_cast<int>(passed.size())};
    const Decision with = decide(table, passed, shipped_rules());
    Decision without = decided(table);
    const PlainDecision plain{passed, shipped_rules()};
    const double gone = plain.best_from(0) - PlainDecision{table, shipped_rules()}.best();
    RC_ASSERT(with.late.has_value() == (gone > shipped_rules().late));
    if (with.late) {
      RC_ASSERT(0.5 * (with.late_control.low + with.late_control.middle) == plain.best_from(0));
      RC_ASSERT(with.late->first <= with.late->last);
      RC_ASSERT(with.late->last < table.front().week_of);
      without.late = with.late;
      without.late_control = with.late_control;
    }
    RC_ASSERT(shown(with) == shown(without));
  });
}
