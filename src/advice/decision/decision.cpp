// SPDX-License-Identifier: MIT
#include "advice/decision/decision.hpp"

#include <algorithm>

namespace soilclock::advice {

namespace {

using treatment::Kind;

/// A cell of the table with its score.
struct Best {
  double score = 0.0;
  std::size_t week = 0;
  Kind kind = Kind::pre;
};

/// The questions the rule asks of a table of weeks.
class Table {
 public:
  explicit Table(std::span<const TreatmentWeek> weeks) : weeks_{weeks} {}

  std::size_t size() const { return weeks_.size(); }
  const TreatmentWeek& week(std::size_t i) const { return weeks_[i]; }
  std::optional<double> score(Kind kind, std::size_t week) const { return weeks_[week].score(kind); }

  /// Highest score of a kind from a week on, the earliest on a tie; nothing when it is never allowed.
  std::optional<Best> best_of(Kind kind, std::size_t from = 0) const {
    std::optional<Best> best;
    for (std::size_t i = from; i < size(); ++i) {
      const auto here = score(kind, i);
      if (here && (!best || *here > best->score)) best = Best{*here, i, kind};
    }
    return best;
  }

  /// Highest score of any kind from a week on.
  std::optional<Best> best(std::size_t from = 0) const {
    std::optional<Best> best;
    for (const Kind kind : treatment::all_kinds) {
      const auto here = best_of(kind, from);
      if (here && (!best || here->score > best->score)) best = here;
    }
    return best;
  }

  /// The weeks from one on.
  Table from(std::size_t week) const { return Table{weeks_.subspan(week)}; }

  double best_score(std::size_t from) const {
    const auto found = from < size() ? best(from) : std::nullopt;
    return found ? found->score : 0.0;
  }

 private:
  std::span<const TreatmentWeek> weeks_;
};

/// The kind of the season: an extra part must be worth its points against the best of the whole season.
Kind named_kind(const Table& table, const Best& best, const DecisionRules& rules) {
  const auto worth = [&](std::optional<double> score) {
    return score && *score >= rules.part_worth && *score >= best.score - rules.part_worth;
  };
  const auto pre = table.best_of(Kind::pre);
  if (worth(pre ? std::optional{pre->score} : std::nullopt)) return Kind::pre;
  if (worth(table.score(Kind::post, 0))) return Kind::post;
  const auto both = table.best_of(Kind::pre_post);
  const auto post = table.best_of(Kind::post);
  if (!both) return Kind::post;
  return post && post->score > both->score ? Kind::post : Kind::pre_post;
}

struct Range {
  std::size_t first = 0;
  std::size_t last = 0;
  bool contains(std::size_t week) const { return first <= week && week <= last; }
};

/// Out from the best week over shallow dips, then back in to weeks that are as good as the best.
Range best_range(const Table& table, const Best& best, const DecisionRules& rules) {
  const auto within = [&](std::size_t week, double points) {
    const auto score = table.score(best.kind, week);
    return score && *score >= best.score - points;
  };
  Range range{best.week, best.week};
  while (range.first > 0 && within(range.first - 1, rules.range_bridge)) --range.first;
  while (range.last + 1 < table.size() && within(range.last + 1, rules.range_bridge)) ++range.last;
  while (!within(range.first, rules.range_within)) ++range.first;
  while (!within(range.last, rules.range_within)) --range.last;
  return range;
}

/// The last week, from the end of the best range on, before the score first falls off. A dip that the range
/// bridges is no fall.
std::size_t good_through(const Table& table, const Best& best, const Range& range, double best_of_all,
                         const DecisionRules& rules) {
  const double floor = std::min(best_of_all - rules.good_through_best, best.score - rules.good_through_kind);
  std::size_t last = range.last;
  while (last + 1 < table.size()) {
    const auto next = table.score(best.kind, last + 1);
    if (!next || *next < floor) break;
    ++last;
  }
  return last;
}

KindAndWeek cell(const Table& table, Kind kind, std::size_t week) {
  return {kind, table.week(week).week_of, table.week(week).of(kind).control};
}

/// What is left after the last good week: after a residual alone the next week in which a mixture is as good
/// as the best, else the best that is still to be had.
void add_then(Decision& decision, const Table& table, std::size_t last_good, double best_of_all,
              const DecisionRules& rules) {
  if (decision.kind == Kind::pre) {
    for (std::size_t week = last_good + 1; week < table.size(); ++week) {
      const auto both = table.score(Kind::pre_post, week);
      if (!both) continue;
      if (*both < best_of_all - rules.part_worth) break;
      decision.then = cell(table, Kind::pre_post, week);
      decision.then_as_good = true;
      return;
    }
  }
  if (last_good + 1 >= table.size()) return;
  const Table left = table.from(last_good + 1);
  const auto best = left.best();
  if (!best || best->score < rules.part_worth) return;
  const Kind kind = named_kind(left, *best, rules);
  decision.then = cell(left, kind, left.best_of(kind)->week);
}

void add_close_call(Decision& decision, const Table& table, const Best& best, const DecisionRules& rules) {
  const auto pre = table.best_of(Kind::pre);
  if (!pre || pre->score < rules.part_worth) return;
  const double below = best.score - pre->score;
  if (below < rules.close_call_least || below > rules.close_call_most) return;
  decision.close_call =
      decision.kind == Kind::pre ? cell(table, best.kind, best.week) : cell(table, Kind::pre, pre->week);
}

void add_late(Decision& decision, std::span<const TreatmentWeek> passed, double best_of_all,
              const DecisionRules& rules) {
  const Table table{passed};
  const auto best = passed.empty() ? std::nullopt : table.best();
  if (!best || best->score - best_of_all <= rules.late) return;
  const Range range = best_range(table, *best, rules);
  decision.late = MondaySpan{table.week(range.first).week_of, table.week(range.last).week_of};
  decision.late_control = table.week(best->week).of(best->kind).control;
}

std::array<std::optional<double>, 3> costs_of_waiting(const Table& table, std::optional<double> now) {
  std::array<std::optional<double>, 3> costs;
  for (std::size_t weeks = 1; weeks <= costs.size(); ++weeks) {
    if (now && weeks < table.size() && table.best(weeks))
      costs[weeks - 1] = std::max(0.0, *now - table.best_score(weeks));
  }
  return costs;
}

Action action_of(const Table& table, const Decision& decision, const Best& best, const Range& range,
                 const DecisionRules& rules) {
  const auto now = table.score(best.kind, 0);
  if (!now || best.score - *now >= rules.part_worth) return Action::wait;
  if (!range.contains(0)) return Action::any_week;
  const bool hurry =
      std::any_of(decision.cost_of_waiting.begin(), decision.cost_of_waiting.end(),
                  [&](const std::optional<double>& cost) { return !cost || *cost >= rules.hurry; });
  return hurry ? Action::treat : Action::any_week;
}

}  // namespace

std::optional<double> TreatmentWeek::score(treatment::Kind kind) const {
  const KindInWeek& cell = of(kind);
  if (!cell.allowed) return std::nullopt;
  return 0.5 * (cell.control.low + cell.control.middle);
}

void forbid_lacking(const treatment::TreatmentParts& parts, TreatmentWeek& week) {
  for (const Kind kind : treatment::all_kinds) {
    const bool lacking = (treatment::has_residual(kind) && parts.residual.empty()) ||
                         (treatment::has_foliar(kind) && parts.foliar.empty());
    if (lacking) week.of(kind).allowed = false;
  }
}

std::string_view name(Action action) {
  switch (action) {
    case Action::treat:
      return "treat";
    case Action::any_week:
      return "any-week";
    case Action::wait:
      return "wait";
    case Action::hold_after_treatment:
      return "hold-after-treatment";
    case Action::nothing_left:
      return "nothing-left";
    case Action::no_single_week:
      return "no-single-week";
    case Action::scout:
      return "scout";
    case Action::no_answer:
      break;
  }
  return "no-answer";
}

std::optional<Action> action_named(std::string_view word) {
  for (const Action action :
       {Action::treat, Action::any_week, Action::wait, Action::hold_after_treatment, Action::nothing_left,
        Action::no_single_week, Action::scout, Action::no_answer}) {
    if (name(action) == word) return action;
  }
  return std::nullopt;
}

Decision decide(std::span<const TreatmentWeek> weeks, std::span<const TreatmentWeek> passed,
                const DecisionRules& rules) {
  Decision decision;
  const Table table{weeks};
  if (weeks.empty()) return decision;
  const auto best = table.best();
  const double best_of_all = best ? best->score : 0.0;
  decision.urgency = best_of_all - table.best_score(3);
  add_late(decision, passed, best_of_all, rules);
  if (best_of_all < rules.part_worth) {
    decision.action = Action::nothing_left;
    return decision;
  }
  decision.kind = named_kind(table, *best, rules);
  const Best named = *table.best_of(*decision.kind);
  const Range range = best_range(table, named, rules);
  const std::size_t last_good = good_through(table, named, range, best_of_all, rules);
  decision.best_range = MondaySpan{table.week(range.first).week_of, table.week(range.last).week_of};
  decision.best_week = table.week(named.week).week_of;
  decision.good_through = table.week(last_good).week_of;
  decision.cost_of_waiting = costs_of_waiting(table, table.score(named.kind, 0));
  add_then(decision, table, last_good, best_of_all, rules);
  add_close_call(decision, table, *best, rules);
  decision.action = action_of(table, decision, named, range, rules);
  const std::size_t shown = decision.action == Action::wait ? named.week : 0;
  decision.control = table.week(shown).of(named.kind).control;
  if (decision.action == Action::wait) decision.cost_of_waiting = {};
  return decision;
}

bool calls_for_treatment(const Decision& decision, Day this_week) {
  if (decision.action == Action::treat) return true;
  return decision.action == Action::any_week && decision.best_range &&
         decision.best_range->first <= this_week;
}

}  // namespace soilclock::advice
