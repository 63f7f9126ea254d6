// SPDX-License-Identifier: MIT
// The usual year of a site, from its own record: for records too short to offer past seasons as possible
// futures.
#pragma once

#include <array>

#include "advice/data/future_rules.hpp"
#include "core/place.hpp"
#include "core/series.hpp"
#include "core/temperature.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::advice {

/// Annual wave of a daily quantity: mean, first and second harmonic over the year of 365.25 days.
struct AnnualWave {
  std::array<double, 5> terms{};  ///< mean, cos, sin, cos 2, sin 2
  double at(int day_of_year) const;
};

/// Normals of daily mean air and of the half range between minimum and maximum, how far the former can be
/// off, and the day-to-day noise left over.
struct AirNormals {
  AnnualWave mean_c;
  AnnualWave half_range_c;
  /// The error of the mean is the sum of these, each times an independent standard normal number.
  std::array<AnnualWave, 5> error_parts;
  double noise_sd_c = 0.0;    ///< standard deviation of the anomaly of the mean
  double noise_memory = 0.0;  ///< its correlation from one day to the next
  int days_used = 0;
};

/// Fits the normals by least squares, the shape of the year pulled toward that of
/// models/weather/usual_air.json: a short record leans on it, many years outweigh it. The level is the
/// record's own. Needs at least one day with both extremes; missing days are left out.
AirNormals fit_air_normals(const weather::DailyWeather& weather, const Place& place,
                           const FutureRules& rules);

}  // namespace soilclock::advice
