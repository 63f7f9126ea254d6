// SPDX-License-Identifier: MIT
#pragma once

#include "advice/data/future_rules.hpp"
#include "core/place.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::advice {

/// Closes holes of the air that no earlier year of the record could close (see weather/series/gaps.hpp), up
/// to `longest_days`, with the site's usual year moved to meet the days around the hole; quality
/// "past-year". Gives the number of days filled. Such days are guesses: the scenarios spread the soil there.
int fill_from_normals(weather::DailyWeather& weather, const Place& place, int longest_days,
                      const FutureRules& rules);

}  // namespace soilclock::advice
