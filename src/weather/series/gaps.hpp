// SPDX-License-Identifier: MIT
// Short holes in a daily series are closed by named rules and marked; nothing is filled silently.
#pragma once

#include <string>
#include <vector>

#include "core/dates.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::weather {

/// How long the gaps are that are filled; none at all as it begins.
struct GapOptions {
  int longest_interpolated = 0;  ///< days; 0 interpolates nothing
  int longest_past_year = 0;     ///< days; not above longest_interpolated: nothing is taken from past years
};

enum class GapTreatment { interpolated, past_years, left_missing };

/// Days of one quantity without a value, with one treatment.
struct Gap {
  std::string quantity;  ///< "minimum", "maximum", "rain", "soil 5 cm"
  DayRange days;
  GapTreatment treatment;
};

struct FilledWeather {
  DailyWeather weather;
  std::vector<Gap> gaps;  ///< by quantity, in order of days
  int filled_days = 0;    ///< days whose minimum or maximum was filled
  int missing_days = 0;   ///< days between the first and the last temperature that still lack one of the two
};

/// Fills holes between the first and the last value of each series. Air temperature: up to
/// longest_interpolated days on a straight line between the neighbors (Quality::filled); up to
/// longest_past_year days with the mean of the same calendar days of earlier years of this record
/// (Quality::past_year), a day without any earlier year stays missing; longer holes stay missing. Soil
/// temperature: only the straight line, because an estimate from the air is better than another year. Rain:
/// never filled. A filled day whose minimum would lie above its maximum is taken away again.
FilledWeather fill_gaps(const DailyWeather& weather, const GapOptions& options);

}  // namespace soilclock::weather
