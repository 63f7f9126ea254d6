// SPDX-License-Identifier: MIT
// How forecasts of past seasons are made and compared: the block "hindcast" of config/practice.json.
#pragma once

#include "core/json_reader.hpp"

namespace soilclock::advice {

/// How a site's own long record of soil corrects the estimate.
struct SiteFitRules {
  int years = 0;                   ///< of readings, the latest ones
  double known_share = 0.0;        ///< of their days that must have estimate and reading, 0..1
  int smoothing_days = 0;          ///< either way in the year, over which the usual error is averaged
  int slow_lag_days = 0;           ///< after which only the slow part of the error is left
  double fast_lag1_most = 0.0;     ///< correlation of the fast part from day to day
  double variance_least_k2 = 0.0;  ///< of either part
};

/// How far past dates still to come are mixed into a forecast, by its own median lead.
struct PoolingRules {
  double most = 0.0;       ///< share, 0..1
  double from_days = 0.0;  ///< nothing up to this lead
  double over_days = 0.0;  ///< rising evenly to the most over so many days more
};

struct HindcastRules {
  int soil_window_days = 0;     ///< from the season's start, in which a soil crossing is looked for
  int readings_reach_days = 0;  ///< older readings say nothing more about the coming weeks
  int past_dates_least = 0;     ///< that may be pooled in or stand as a rival
  int compared_least = 0;       ///< seasons a rival must have forecast as well
  PoolingRules pooling;
  SiteFitRules site_fit;
};

/// Reads the block strictly: unknown or missing key, wrong unit, missing basis or note are problems at their
/// place.
HindcastRules read_hindcast_rules(const JsonObject& item);

}  // namespace soilclock::advice
