// SPDX-License-Identifier: MIT
// One decision from the table of weeks and kinds: what to do this week, until when that stays good, what
// comes next and what waiting costs. A pure function of the table; everything people read is a rendering of
// its value.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "advice/data/practice.hpp"
#include "core/band.hpp"
#include "core/dates.hpp"
#include "treatment/expected_control.hpp"
#include "treatment/tank_plan.hpp"

namespace soilclock::advice {

/// One kind in one week: expected control in percent of the season's seedlings, and whether it may be done.
struct KindInWeek {
  Band<double> control;
  bool allowed = true;
};

/// One row of the table.
struct TreatmentWeek {
  Day week_of{};  ///< its Monday
  std::array<KindInWeek, treatment::kind_count> kinds;
  const KindInWeek& of(treatment::Kind kind) const { return kinds[treatment::index_of(kind)]; }
  KindInWeek& of(treatment::Kind kind) { return kinds[treatment::index_of(kind)]; }
  /// Half way between the low end and the middle; nothing when the kind is not allowed.
  std::optional<double> score(treatment::Kind kind) const;
};

/// Forbids the kinds whose parts a treatment lacks.
void forbid_lacking(const treatment::TreatmentParts& parts, TreatmentWeek& week);

enum class Action {
  treat,                 ///< this week
  any_week,              ///< good now, and no hurry
  wait,                  ///< a better week, or the end of a gate, is ahead
  hold_after_treatment,  ///< a foliar treatment was noted; its effect cannot be judged yet
  nothing_left,          ///< nothing left to time this season
  no_single_week,        ///< the climate has no single wave
  scout,                 ///< component models would name different kinds
  no_answer
};
/// "treat", "any-week", "wait", "hold-after-treatment", "nothing-left", "no-single-week", "scout",
/// "no-answer".
std::string_view name(Action action);
/// The action of that name, nothing for other words.
std::optional<Action> action_named(std::string_view word);

/// Mondays, both included.
struct MondaySpan {
  Day first{};
  Day last{};
};

/// A kind in a week, with what it would do.
struct KindAndWeek {
  treatment::Kind kind = treatment::Kind::pre;
  Day week_of{};
  Band<double> control;
};

struct Decision {
  Action action = Action::no_answer;
  std::optional<treatment::Kind> kind;  ///< named once for the season
  /// Of the named kind this week; for wait, in its best week.
  std::optional<Band<double>> control;
  std::optional<MondaySpan> best_range;  ///< the weeks within a point of the best
  std::optional<Day> best_week;          ///< of the named kind, the earliest on a tie
  std::optional<Day> good_through;       ///< last week before it falls off
  /// What comes after the named kind's last good week; `then_as_good` when it is as good as the best.
  std::optional<KindAndWeek> then;
  bool then_as_good = false;
  std::optional<KindAndWeek> close_call;  ///< the other kind that is nearly as good, in its best week
  /// The best weeks have passed: when they were and what they would have given.
  std::optional<MondaySpan> late;
  Band<double> late_control;
  /// Points lost by waiting one, two, three weeks, at most; never below 0 and never falling. Empty: no week
  /// is left then.
  std::array<std::optional<double>, 3> cost_of_waiting;
  double urgency = 0.0;  ///< points lost if nothing is done for three weeks; for ranking sites
};

/// Decides from the weeks that are left, this week first, and the weeks of the season that have passed (for
/// `late` only). An empty table gives no_answer.
Decision decide(std::span<const TreatmentWeek> weeks, std::span<const TreatmentWeek> passed,
                const DecisionRules& rules);

/// Whether a manager who follows the advice treats this week: at once on `treat`, and on `any-week` once the
/// best range has begun.
bool calls_for_treatment(const Decision& decision, Day this_week);

}  // namespace soilclock::advice
