// SPDX-License-Identifier: MIT
// How forecasts of past seasons are made and compared: the block "hindcast" of config/practice.json.
#pragma once

#include "core/json_reader.hpp"

namespace soilclock::advice {

/// How far past dates still to come are mixed into a forecast, by its own median lead.
struct PoolingRules {
  double most = 0.0;       ///< share, 0..1
  double from_days = 0.0;  ///< nothing up to this lead
  double over_days = 0.0;  ///< rising evenly to the most over so many days more
};

struct HindcastRules {
  int soil_window_days = 0;  ///< from the season's start, in which a soil crossing is looked for
  int past_dates_least = 0;  ///< that may be pooled in or stand as a rival
  int compared_least = 0;    ///< seasons a rival must have forecast as well
  PoolingRules pooling;
};

/// Reads the block strictly: unknown or missing key, wrong unit, missing basis or note are problems at their
/// place.
HindcastRules read_hindcast_rules(const JsonObject& item);

}  // namespace soilclock::advice
