// SPDX-License-Identifier: MIT
// Filling holes in daily weather: openly, by length, and never beyond what the record itself can back.
#pragma once

#include <string>
#include <vector>

#include "weather/daily_weather.hpp"

namespace soilclock::weather {

/// How long a gap may be for each treatment. Source: common practice.
struct GapLimits {
  int interpolated_days = 3;  ///< up to here: straight line between the neighbours, quality "filled"
  int past_year_days = 10;    ///< up to here: mean of the same days of earlier years, quality "past-year"
};

enum class GapTreatment { interpolated, past_years, left_open };

/// A run of days without both air extremes, between days that have them.
struct Gap {
  DayRange days;
  GapTreatment treatment = GapTreatment::left_open;
};

struct FilledWeather {
  DailyWeather weather;
  std::vector<Gap> gaps;   ///< in order of time
  int filled_days = 0;     ///< interpolated and past-year days together
  int missing_days = 0;    ///< left open
};

/// Treats the gaps of the air extremes within `within` (days before the first and after the last known day of the range
/// are no gaps). A gap too long to interpolate that no earlier year can fill is left open. Rain and soil are never
/// filled: a dry day is not the same as an unknown one.
FilledWeather fill_gaps(DailyWeather weather, DayRange within, const GapLimits& limits = {});

}  // namespace soilclock::weather
