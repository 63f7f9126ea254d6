// SPDX-License-Identifier: MIT
// Seasons, sites, rules of thumb and what-ifs side by side: what `compare` and the handout are made from.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "advice/answer/answer.hpp"
#include "advice/comparison/degree_day_lesson.hpp"
#include "core/band.hpp"
#include "core/dates.hpp"

namespace soilclock::advice {

/// A season of one site on one row.
struct SeasonRow {
  std::string label;  ///< the year it began in, or the name of its site
  bool open = false;  ///< not over yet: its later dates are forecast
  SeasonSummary season;
};

/// A date that every season has, over the past seasons and this one. Earliest, middle and latest are of the
/// past seasons, moved into this one; empty where that is "never" or no season is there.
struct SeasonDate {
  std::string id;     ///< "5-up", "fall-70f", "best-week"
  std::string title;  ///< "5% up", "Below 70 F", "best week"
  std::vector<std::optional<Day>> past;
  std::optional<Day> this_season;
  std::optional<Day> earliest;
  std::optional<Day> middle;
  std::optional<Day> latest;
  std::optional<int> days_apart;  ///< latest less earliest
};

/// A way to call the first residual, held against the yardstick: the day a share of the season was up by the
/// models.
struct CallMisses {
  std::string id;
  std::string title;               ///< "the calendar, Sep 15", "Below 70 F"
  std::optional<Day> this_season;  ///< its call in the present season
  std::vector<std::optional<int>>
      days_late;                    ///< by past season; negative: early; empty: no call or no yardstick
  std::optional<double> mean_miss;  ///< mean of the days without their sign
  int late_seasons = 0;             ///< in which it came after the yardstick
  int seasons = 0;                  ///< in which both are known
};

/// A change of the site whose effect is looked at.
struct WhatIf {
  std::string id;
  std::string title;  ///< "soil 1.8 F warmer"
  DateBand first_up;  ///< the yardstick's share
  DateBand half_up;
  std::optional<int> first_up_shift;  ///< days against the site as it is; positive: later
  std::optional<int> half_up_shift;
  std::optional<Day> best_week;
  std::optional<treatment::Kind> best_kind;
  std::optional<Band<double>> best_control;
};

/// The same question asked of a changed site on one morning, early enough that every week is still ahead.
struct WhatIfTable {
  Day asked_on{};
  std::vector<WhatIf> cases;  ///< the first is the site as it is, the second has soil a little warmer
};

/// What stands side by side for one target at one site.
struct TargetComparison {
  std::string target;  ///< EPPO code
  std::string title;
  int yardstick_percent = 0;
  std::vector<SeasonRow> seasons;  ///< past ones, oldest first, then this one
  std::vector<SeasonDate> dates;
  std::vector<CallMisses> calls;
  std::optional<WhatIfTable> what_ifs;  ///< empty where the record does not reach
  /// How unsure the yardstick itself is on the morning of the what-ifs: days before and after its middle.
  std::optional<Band<int>> yardstick_band;
  std::string finding;          ///< a clause: how often the calendar was late
  std::string range;            ///< two sentences: how far the yardstick's day moves
  std::string what_if_finding;  ///< a clause: what a little warmer soil moves; empty without what-ifs
};

/// A target that has nothing to stand side by side, and why: a sentence.
struct NotCompared {
  std::string target;
  std::string title;
  std::string why;
};

/// A site's answer with what stands beside it.
struct SiteComparison {
  SiteAnswer answer;
  std::vector<TargetComparison> targets;  ///< those answered, in the order asked for
  std::vector<NotCompared> not_compared = {};
  std::optional<DegreeDayLesson> lesson;  ///< empty where no spring of the record suits
};

/// The season of each site that is being answered, a row a site, for a target that some of them were asked
/// about.
std::vector<SeasonRow> sites_side_by_side(const std::vector<SiteComparison>& sites,
                                          const std::string& target);

/// The targets compared at any of the sites, each once, with their titles.
std::vector<std::pair<std::string, std::string>> targets_compared(const std::vector<SiteComparison>& sites);

}  // namespace soilclock::advice
