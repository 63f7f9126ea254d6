// SPDX-License-Identifier: MIT
// How the weather after the last known day, and in long gaps, is made up.
#pragma once

#include <string>
#include <string_view>

#include "advice/data/usual_air.hpp"
#include "core/problem.hpp"
#include "core/temperature.hpp"
#include "soil/estimate_rules.hpp"
#include "weather/series/gaps.hpp"

namespace soilclock::advice {

/// The numbers of models/weather/futures.json.
struct FutureRules {
  int past_seasons_least = 0;      ///< that may stand for the future by themselves
  int past_seasons_most = 0;       ///< the latest ones
  int made_up = 0;                 ///< futures of the usual year and random weather
  int forecast_members_least = 0;  ///< that make a spread
  int rain_block_days = 0;
  int rain_near_days = 0;  ///< from which made-up rain is taken, either way in the year
  int rain_far_days = 0;
  double half_range_least_kelvin = 0.0;  ///< of a made-up day
  double memory_most = 0.0;              ///< of made-up weather from day to day
  double range_worth_days = 0.0;       ///< pull of the range between minimum and maximum toward one all year
  weather::GapOptions gaps;            ///< how long the gaps are that are filled
  int around_gap_days = 0;             ///< which set the level of a gap
  double guessed_air_sd_kelvin = 0.0;  ///< of the mean of several days of guessed air
  soil::UsualYear usual_year;          ///< that of models/soil/estimate.json, where the grid has no cell
  UsualAir usual_air;                  ///< that of models/weather/usual_air.json
};

/// Reads the file; the usual years are left as they are. Problems (request): unknown or missing keys, a wrong
/// unit, a number out of range or without grounds.
Result<FutureRules> read_future_rules(std::string_view text, const std::string& file);

}  // namespace soilclock::advice
