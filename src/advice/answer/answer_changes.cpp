// SPDX-License-Identifier: MIT
#include "advice/answer/answer_changes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "advice/answer/portfolio.hpp"
#include "advice/answer/words.hpp"

namespace soilclock::advice {

namespace {

/// Best weeks that have begun begin this week.
Day best_from(const MondaySpan& range, Day on) { return std::max(range.first, monday_of(on)); }

void add_moved(const Decision& now, Day on, const EarlierAnswer& earlier, const ChangeRules& rules,
               std::vector<AnswerChange>& changes) {
  if (!now.best_range || !earlier.best_range) return;
  const Days moved = best_from(*now.best_range, on) - best_from(*earlier.best_range, on);
  if (std::abs(moved.count()) <= rules.best_weeks_moved_days) return;
  changes.push_back(
      {ChangeKind::best_weeks_moved,
       fmt::format("best weeks {} (were {})", week_range(now.best_range->first, now.best_range->last),
                   week_range(earlier.best_range->first, earlier.best_range->last))});
}

}  // namespace

std::string_view name(ChangeKind change) {
  switch (change) {
    case ChangeKind::newly_urgent:
      return "newly-urgent";
    case ChangeKind::best_weeks_moved:
      return "best-weeks-moved";
    case ChangeKind::kind_changed:
      return "kind-changed";
    case ChangeKind::newly_finished:
      break;
  }
  return "newly-finished";
}

std::optional<ChangesSince> changes_since(const TargetAnswer& answer, Day on, const EarlierAnswer& earlier,
                                          const ChangeRules& rules) {
  if (answer.refusal || earlier.on >= on || earlier.season_start != answer.season_start) return std::nullopt;
  const Decision& now = answer.decision;
  ChangesSince since{earlier.on, {}};
  if (now.action == Action::nothing_left) {
    if (earlier.action != Action::nothing_left)
      since.changes.push_back({ChangeKind::newly_finished, "nothing left to time this season"});
    return since;
  }
  if (now.action == Action::treat && earlier.action != Action::treat)
    since.changes.push_back(
        {ChangeKind::newly_urgent, fmt::format("treat this week (was: {})", in_short(earlier.action))});
  if (now.kind && earlier.kind && now.kind != earlier.kind)
    since.changes.push_back({ChangeKind::kind_changed, fmt::format("{} (was: {})", treatment::name(*now.kind),
                                                                   treatment::name(*earlier.kind))});
  add_moved(now, on, earlier, rules, since.changes);
  return since;
}

std::vector<ChangedTarget> changed_targets(std::span<const SiteAnswer> sites) {
  std::vector<ChangedTarget> changed;
  for (std::size_t site = 0; site < sites.size(); ++site) {
    for (std::size_t target = 0; target < sites[site].targets.size(); ++target) {
      const auto& since = sites[site].targets[target].changed;
      if (since && !since->changes.empty())
        changed.push_back({site, target, since->since, changes_words(*since)});
    }
  }
  return changed;
}

std::optional<Day> compared_with(std::span<const SiteAnswer> sites) {
  std::optional<Day> latest;
  for (const SiteAnswer& site : sites) {
    for (const TargetAnswer& target : site.targets) {
      if (target.changed) latest = latest ? std::max(*latest, target.changed->since) : target.changed->since;
    }
  }
  return latest;
}

std::string changes_words(const ChangesSince& changes) {
  std::string text;
  for (const AnswerChange& change : changes.changes) text += (text.empty() ? "" : "; ") + change.text;
  return text;
}

}  // namespace soilclock::advice
