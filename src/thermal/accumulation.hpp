// SPDX-License-Identifier: MIT
// Thermal sums over a range of days. A missing day adds nothing and is counted: a sum with missing days is
// too low, and whoever uses it must know.
#pragma once

#include <optional>
#include <vector>

#include "core/series.hpp"
#include "thermal/degree_day_rule.hpp"

namespace soilclock::thermal {

/// Degree-days of each day of a range and their running sum.
struct Accumulation {
  DailySeries<DegreeDays> values;  ///< exactly the range asked for; a day without temperature is missing
  std::vector<DegreeDays> sums;    ///< sum through each day; stands still on a missing day
  int missing_days = 0;
  std::vector<Day> provisional;  ///< days a later minimum can still change (double methods)

  /// Sum through the end of the range; zero for an empty range.
  DegreeDays total() const { return sums.empty() ? DegreeDays{} : sums.back(); }
};

/// By any method that works on the day's extremes. The double methods look at the minimum of the day after,
/// also past the end of the range; a day whose next minimum is missing uses its own and is provisional.
/// Problems: those of degree_days_of_day, with the day named.
Result<Accumulation> accumulate(const DailySeries<Temperature>& minimum,
                                const DailySeries<Temperature>& maximum, const DegreeDayRule& rule,
                                DayRange days);

/// "daily-mean": max(0, min(mean, upper) - lower) of each day, for soil or air means.
Accumulation accumulate_means(const DailySeries<Temperature>& mean, Temperature lower,
                              std::optional<Temperature> upper, DayRange days);

/// Cooling degree-days: max(0, from - mean) of each day.
/// Source: Taylor, Prorock, Horvath & Brosnan 2021, Scientific Reports 11 (abstract), who count from 21 C.
Accumulation accumulate_cooling(const DailySeries<Temperature>& mean, Temperature from, DayRange days);

}  // namespace soilclock::thermal
