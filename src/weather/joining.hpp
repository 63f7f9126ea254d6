// SPDX-License-Identifier: MIT
// Several files of one site as one daily record.
#pragma once

#include <vector>

#include "core/remark.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::weather {

/// A read file and what it is for.
struct RoledWeather {
  DailyWeather daily;
  bool forecast = false;
};

struct JoinedWeather {
  DailyWeather daily;                    ///< measured up to the day before `on`, then forecast
  std::optional<Day> last_measured;      ///< last day with both extremes measured
  std::optional<Day> last_forecast;      ///< last forecast day in use
  int ignored_days = 0;                  ///< measured on or after `on`, not used
  std::vector<Remark> remarks;
};

/// Joins the files of a site in the order named. Where two station files hold different values for a day the first one
/// wins and a remark counts the days. Nothing measured on or after `on` is used. Forecast days count only after the last
/// measured day; they carry quality "forecast". Soil readings and rain join alike.
JoinedWeather join(const std::vector<RoledWeather>& files, Day on);

}  // namespace soilclock::weather
