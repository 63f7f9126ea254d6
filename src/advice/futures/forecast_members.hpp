// SPDX-License-Identifier: MIT
// An ensemble forecast as a spread around the forecast that is used.
#pragma once

#include <vector>

#include "advice/data/future_rules.hpp"
#include "core/dates.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::advice {

/// Traces of the days [days.begin(), days.end()), one a member: the temperatures of `forecast` moved by how
/// far the member lies from the mean of all members on that day, so that the level stays that of the forecast
/// used (whose bias may have been removed) and the ensemble gives only its spread. Rain is the member's own.
/// Days not known to every member keep the forecast. Empty with too few members, or when no day is known to
/// all of them.
std::vector<weather::DailyWeather> spread_around(const weather::DailyWeather& forecast,
                                                 const std::vector<weather::DailyWeather>& members,
                                                 DayRange days, const FutureRules& rules);

}  // namespace soilclock::advice
