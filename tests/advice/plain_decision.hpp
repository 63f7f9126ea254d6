// SPDX-License-Identifier: MIT
// The decision rule a second time, from its wording and without a thought for speed: what the program's own
// must agree with.
#pragma once

#include <cmath>
#include <limits>

#include "decision_tables.hpp"

namespace soilclock::tests {

inline constexpr double none = -std::numeric_limits<double>::infinity();

/// The best of the table by any question asked of its cells.
class PlainDecision {
 public:
  PlainDecision(const Weeks& table, const advice::DecisionRules& rules) : table_{table}, rules_{rules} {}

  double score(treatment::Kind kind, int week) const {
    return table_.at(static_cast<std::size_t>(week)).score(kind).value_or(none);
  }
  int weeks() const { return static_cast<int>(table_.size()); }

  double best_of(treatment::Kind kind) const {
    double best = none;
    for (int week = weeks() - 1; week >= 0; --week) best = std::fmax(best, score(kind, week));
    return best;
  }

  /// The best of all kinds from a week on; minus infinity when nothing is allowed any more.
  double best_from(int from) const {
    double best = none;
    for (int week = from; week < weeks(); ++week) {
      for (const treatment::Kind kind : treatment::all_kinds) best = std::fmax(best, score(kind, week));
    }
    return best;
  }

  double best() const { return std::fmax(best_from(0), 0.0); }

  std::optional<treatment::Kind> kind() const {
    if (best() < rules_.part_worth) return std::nullopt;
    const double earned = std::fmax(rules_.part_worth, best() - rules_.part_worth);
    for (int week = 0; week < weeks(); ++week) {
      if (score(treatment::Kind::pre, week) >= earned) return treatment::Kind::pre;
    }
    if (score(treatment::Kind::post, 0) >= earned) return treatment::Kind::post;
    return best_of(treatment::Kind::post) > best_of(treatment::Kind::pre_post) ? treatment::Kind::post
                                                                               : treatment::Kind::pre_post;
  }

  int best_week() const {
    int week = 0;
    while (score(*kind(), week) < best_of(*kind())) ++week;
    return week;
  }

  /// Whether the weeks from the best one to this, both included, are all at least so good.
  bool joined(int week, double least) const {
    for (int between = std::min(week, best_week()); between <= std::max(week, best_week()); ++between) {
      if (score(*kind(), between) < least) return false;
    }
    return true;
  }

  /// First and last week of those within a point, over dips of two points.
  std::pair<int, int> range() const {
    const double top = best_of(*kind());
    std::pair<int, int> range{best_week(), best_week()};
    for (int week = 0; week < weeks(); ++week) {
      const bool counts =
          score(*kind(), week) >= top - rules_.range_within && joined(week, top - rules_.range_bridge);
      if (!counts) continue;
      range = {std::min(range.first, week), std::max(range.second, week)};
    }
    return range;
  }

  int good_through() const {
    const double least =
        std::fmin(best() - rules_.good_through_best, best_of(*kind()) - rules_.good_through_kind);
    for (int week = range().second + 1; week < weeks(); ++week) {
      if (score(*kind(), week) < least) return week - 1;
    }
    return weeks() - 1;
  }

  /// Nothing when no week is left then, or the kind is gated now.
  std::optional<double> cost(int waited) const {
    const double now = score(*kind(), 0);
    if (now == none || best_from(waited) == none) return std::nullopt;
    return std::fmax(0.0, now - best_from(waited));
  }

  bool hurry() const {
    int no_matter = 0;
    for (int waited = 1; waited <= 3; ++waited) {
      if (cost(waited) && *cost(waited) < rules_.hurry) ++no_matter;
    }
    return no_matter < 3;
  }

  advice::Action action() const {
    if (table_.empty()) return advice::Action::no_answer;
    if (!kind()) return advice::Action::nothing_left;
    const double gain = best_of(*kind()) - score(*kind(), 0);
    if (gain >= rules_.part_worth) return advice::Action::wait;
    return range().first == 0 && hurry() ? advice::Action::treat : advice::Action::any_week;
  }

 private:
  const Weeks& table_;
  const advice::DecisionRules& rules_;
};

}  // namespace soilclock::tests
