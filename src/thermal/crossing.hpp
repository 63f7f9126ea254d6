// SPDX-License-Identifier: MIT
// When a temperature passes a level for good enough: runs of days on one side of it, and how often it turned
// back.
#pragma once

#include <optional>

#include "core/series.hpp"
#include "core/temperature.hpp"

namespace soilclock::thermal {

/// The side of a level on which a day counts; the level itself counts on both.
enum class Side { at_or_below, at_or_above };

/// The trade and the papers speak of means of seven days.
inline constexpr int trailing_days = 7;

/// For each day of a range its mean with the six days before it, over those that are present; missing where
/// fewer than `needed`, 1 to 7, are. Quality: the weakest of the days used.
DailySeries<Temperature> trailing_mean(const DailySeries<Temperature>& series, DayRange days, int needed);

/// A level, the side that counts and how many days in a row make a run (at least 1).
struct CrossingRule {
  Temperature level;
  Side side = Side::at_or_below;
  int run_days = 5;
};

/// First day of the first run of run_days days on the rule's side, all of them within the range. A missing
/// day breaks a run. The answer is only known run_days - 1 days later. Empty when there is no such run.
std::optional<Day> first_run(const DailySeries<Temperature>& series, const CrossingRule& rule,
                             DayRange within);

/// Last day within the range on the rule's side whose preceding known day (within the range) was on the other
/// side.
std::optional<Day> last_crossing(const DailySeries<Temperature>& series, const CrossingRule& rule,
                                 DayRange within);

/// How many times the series leaves the rule's side again after the first run; 0 without a first run. Missing
/// days are passed over.
int reversals(const DailySeries<Temperature>& series, const CrossingRule& rule, DayRange within);

}  // namespace soilclock::thermal
