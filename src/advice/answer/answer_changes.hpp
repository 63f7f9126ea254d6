// SPDX-License-Identifier: MIT
// What changed since an earlier answer of the same season. It is shown beside the decision and never part of
// it.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "advice/answer/answer.hpp"
#include "advice/data/practice.hpp"

namespace soilclock::advice {

/// What an earlier answer said of one target.
struct EarlierAnswer {
  Day on{};  ///< its issue date
  Day season_start{};
  Action action = Action::no_answer;
  std::optional<treatment::Kind> kind;
  std::optional<MondaySpan> best_range;
};

/// "newly-urgent", "best-weeks-moved", "kind-changed", "newly-finished".
std::string_view name(ChangeKind change);

/// What is worth telling somebody who read the earlier answer: treatment is called for now and was not, the
/// best weeks begin on another date by more than the rules allow, another kind, nothing left to time. Best
/// weeks that have begun count as beginning this week, so that time alone moves nothing. Empty: nothing can
/// be compared, since the earlier answer is of this day or later, of another season, or this one was refused.
std::optional<ChangesSince> changes_since(const TargetAnswer& answer, Day on, const EarlierAnswer& earlier,
                                          const ChangeRules& rules);

/// A target of one of the answers that changed, and how, as one clause.
struct ChangedTarget {
  std::size_t site = 0;
  std::size_t target = 0;
  Day since{};
  std::string text;
};

/// The targets that changed, in the order of the answers.
std::vector<ChangedTarget> changed_targets(std::span<const SiteAnswer> sites);

/// The issue date of the latest answer that any target was compared with; empty: none was.
std::optional<Day> compared_with(std::span<const SiteAnswer> sites);

/// The changes as one clause: "treat this week (was: wait); pre+post (was: pre)"; empty where there are none.
std::string changes_words(const ChangesSince& changes);

}  // namespace soilclock::advice
