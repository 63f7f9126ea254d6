// SPDX-License-Identifier: MIT
// The day table of a season by weeks, for tables that people read.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "advice/answer/season_days.hpp"

namespace soilclock::advice {

/// A Monday morning and the week it begins.
struct SeasonWeek {
  Day week_of{};
  Band<double> emerged_percent;  ///< on the morning of the Monday, like the other shares
  double young_percent = 0.0;    ///< middle
  double older_percent = 0.0;    ///< middle
  Temperature soil_5cm;          ///< mean of the week's days; unknown where none is known
  std::optional<Rain> rain;      ///< sum of the week's days; empty where one of them is not known
};

/// The whole weeks of a day table that lie in a range of days, oldest first.
std::vector<SeasonWeek> season_weeks(std::span<const SeasonDay> season, DayRange days);

}  // namespace soilclock::advice
