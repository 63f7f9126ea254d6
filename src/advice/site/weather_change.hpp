// SPDX-License-Identifier: MIT
// Weather other than it was read, for what-ifs: a shorter record, a week that is missing, dry days, a frost.
#pragma once

#include <algorithm>
#include <optional>

#include "core/dates.hpp"
#include "core/rain.hpp"
#include "core/temperature.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::advice {

/// Changes to the weather as it was read; a default value changes nothing.
struct WeatherChange {
  std::optional<Day> record_from;  ///< days before it are left out
  int missing_days = 0;            ///< that end two days before the day of the answer
  DayRange dry;                    ///< without rain
  std::optional<Day> frost_on;
  Temperature frost_low;  ///< the minimum of that day is no higher

  Temperature low_on(Day day, Temperature low) const {
    return frost_on == day ? std::min(low, frost_low) : low;
  }
  Rain rain_on(Day day, Rain rain) const { return dry.contains(day) ? Rain::from_mm(0.0) : rain; }
};

/// Takes air and rain of `days` days out, the last of them the day before `before`.
void clear_days(weather::DailyWeather& daily, Day before, int days);

/// The record as the change leaves it, for an answer of the morning of `on`.
void change_record(weather::DailyWeather& daily, Day on, const WeatherChange& change);

/// The days of a forecast as the change has them.
void change_days_ahead(weather::DailyWeather& daily, Day on, const WeatherChange& change);

}  // namespace soilclock::advice
