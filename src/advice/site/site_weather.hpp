// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "advice/site/weather_change.hpp"
#include "core/depth.hpp"
#include "core/place.hpp"
#include "core/temperature.hpp"
#include "emergence/season_drivers.hpp"
#include "soil/soil_temperature.hpp"
#include "soil/surface_water.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::advice {

/// What is known about a site in the morning of the day the answer is given on.
struct SiteWeather {
  Place place;
  Day on{};                     ///< nothing measured on or after this day is in `daily`
  weather::DailyWeather daily;  ///< checked, gaps treated; a forecast may follow the measured days
  Day outlook_start{};          ///< the first day neither measured nor forecast
  std::optional<Day> last_measured;
  std::optional<Day> last_forecast;
  emergence::Irrigation irrigation;
  soil::Texture texture = soil::Texture::loam;
  /// Courses the days to come may take, from an ensemble forecast; empty: the forecast in `daily` is taken as
  /// it is. Each covers all of [first_forecast, outlook_start) with both extremes.
  std::vector<weather::DailyWeather> forecast_members;
  std::optional<Day> first_forecast;  ///< first forecast day, where there are members
  std::vector<soil::SpotMean> spots;  ///< probe readings at a clock time, made into daily means
  TemperatureDelta soil_offset;       ///< added to the soil estimate, the user's own finding
  WeatherChange change;               ///< of the days to come, for a what-if
  bool us_units = false;              ///< of the sentences
};

}  // namespace soilclock::advice
