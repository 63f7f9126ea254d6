// SPDX-License-Identifier: MIT
// Possible futures: after the last known day, each past season of the site's own record is one way the
// weather may go.
#pragma once

#include <string>
#include <vector>

#include "advice/data/future_rules.hpp"
#include "core/dates.hpp"
#include "core/place.hpp"
#include "core/rain.hpp"
#include "core/remark.hpp"
#include "core/temperature.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::advice {

/// One possible weather over the days asked for; index 0 is the first of them.
struct Future {
  std::string label;  ///< "2019" (that year's weather) or "normals 7"
  std::vector<Temperature> air_min;
  std::vector<Temperature> air_max;
  std::vector<Rain> rain;
};

struct Futures {
  std::vector<Future> all;  ///< never empty
  int past_seasons = 0;     ///< how many come from the record; 0 when normals stand in
  std::vector<Remark> remarks;
};

/// Futures over [outlook_start, horizon). Only days before `outlook_start` of the weather are looked at. A
/// past season counts when none of its days in question lacks a temperature. With too few of them, normals of
/// the record plus noise stand in (AR(1) noise; rain drawn in blocks of days from the same time of year), and
/// a remark says so.
Futures possible_futures(const weather::DailyWeather& weather, const Place& place, Day outlook_start,
                         Day horizon, const FutureRules& rules, std::uint64_t seed);

}  // namespace soilclock::advice
