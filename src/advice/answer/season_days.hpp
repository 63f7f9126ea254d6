// SPDX-License-Identifier: MIT
// One season day by day, past seasons beside it and what was noted: what tables and pictures are made from.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/band.hpp"
#include "core/dates.hpp"
#include "core/rain.hpp"
#include "core/temperature.hpp"
#include "treatment/expected_control.hpp"

namespace soilclock::advice {

/// One day of a season as the ensemble sees it.
struct SeasonDay {
  Day day{};
  Temperature soil_5cm;  ///< median of the members
  Temperature soil_low;  ///< their 10th percentile
  Temperature soil_high;
  std::optional<Rain> rain;  ///< known days only
  Band<double> emerged_percent;
  double juvenile_percent = 0.0;  ///< of those up, median
  /// Up and before the first tiller, percent of the season's seedlings.
  Band<double> young_percent;
  Band<double> older_percent;                   ///< up and past that stage, percent of the season's seedlings
  std::optional<double> residual_left_percent;  ///< of a full dose, from applications noted; empty: none was
  std::string_view origin;  ///< of its air: "measured", "modelled", "filled", ..., "outlook"
};

/// The shares of a season's seedlings at the end of a day, in percent.
struct CurvePoint {
  Day day{};
  double emerged_percent = 0.0;
  double young_percent = 0.0;  ///< up and before the first tiller
  double older_percent = 0.0;  ///< up and past that stage
};

/// The day a share of a season's seedlings was up; empty: it never was.
struct ShareUp {
  int percent = 0;
  std::optional<Day> day;
};

/// The day a soil-temperature habit called for in a season; empty: it never did.
struct RuleDay {
  std::string id;
  std::optional<Day> day;
};

/// One season in brief, as the models have it; a past one with its weather known to the end.
struct SeasonSummary {
  Day season_start{};
  std::vector<CurvePoint> weekly;  ///< medians of the members, on Mondays
  std::vector<ShareUp> up;         ///< middle days of the shares that answers name, rising
  std::vector<RuleDay> rule_days;  ///< of the target's soil rules, in the order of the practice file
  std::optional<Day> best_week;    ///< for the plan of the answer; empty: no week was worth a treatment
  std::optional<treatment::Kind> best_kind;
  std::optional<Band<double>> best_control;  ///< of that kind in that week

  /// The day a share in `up` was up; empty for a share that is not there, too.
  std::optional<Day> reached(int percent) const {
    for (const ShareUp& share : up) {
      if (share.percent == percent) return share.day;
    }
    return std::nullopt;
  }
};

/// This season beside the past ones.
struct UsualSeason {
  int seasons = 0;                        ///< past seasons it rests on
  std::optional<int> half_up_day;         ///< middle one of them, day of the season (0: its first day)
  std::optional<Day> half_up;             ///< that day in this season
  std::optional<Day> best_week;           ///< middle of their best weeks, in this season
  std::optional<int> days_against_usual;  ///< half up this season less usual; positive: later
};

enum class NoteKind { application, count, first_seen, reading, turf_check, strip };
/// "application", "count", "first-seen", "reading", "turf-check", "strip".
std::string_view name(NoteKind kind);

/// An entry of the log that this season's answer used.
struct NoteShown {
  Day day{};
  NoteKind kind = NoteKind::application;
  std::string text;  ///< "pre, prodiamine (3)", "12 seedlings in 10 plots", "62.0 F at 06:10, 2 in"
};

}  // namespace soilclock::advice
