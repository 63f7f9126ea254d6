// SPDX-License-Identifier: MIT
// When a thermal sum starts within a season.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "core/problem.hpp"
#include "core/season.hpp"
#include "core/series.hpp"
#include "thermal/crossing.hpp"

namespace soilclock::thermal {

/// From the season's first day on.
struct StartWithSeason {
  friend bool operator==(const StartWithSeason&, const StartWithSeason&) = default;
};

/// From a date, written for the northern hemisphere; in the south six months later. 29 February is 1 March in
/// a common year.
struct StartByDate {
  unsigned month = 1;
  unsigned day_of_month = 1;
  friend bool operator==(const StartByDate&, const StartByDate&) = default;
};

/// From the first day of the first run of days whose trailing mean lies on one side of a level, looked for
/// from a date.
struct StartByCrossing {
  CrossingRule crossing;
  StartByDate not_before;
  int mean_days = trailing_days;
  int mean_days_needed = trailing_days_needed;
};

using StartRule = std::variant<StartWithSeason, StartByDate, StartByCrossing>;

/// "season" or "MM-DD" as model files and options write it (a crossing has no short form); a request problem
/// otherwise.
Result<StartRule> parse_start(std::string_view text);

/// "season", "02-15", or for a crossing "from 08-01: 5 days of the 7-day mean at or below 18.9 C". Two rules
/// that differ by more than a tenth of a degree differ in their text: it is the start of a ThermalScale.
std::string text_of(const StartRule& rule);

/// The day the sum starts in a season. `daily_mean` is only looked at by a crossing, and only within the
/// season (its trailing mean may reach back before it). Empty when a crossing does not come.
std::optional<Day> start_day(const StartRule& rule, const Season& season,
                             const DailySeries<Temperature>& daily_mean);

}  // namespace soilclock::thermal
