// SPDX-License-Identifier: MIT
// Small changes of a site before it is answered for: what if the soil were cooler, the turf not watered, the
// coming days dry?
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/data/practice.hpp"
#include "core/temperature.hpp"
#include "pipeline.hpp"

namespace soilclock {

/// What a what-if changes; a default value changes nothing. How long a dry spell is and how cold a
/// frost stands in the practice file.
struct WhatIfChange {
  TemperatureDelta soil;            ///< warmer is positive, on top of the site's own offset
  std::optional<bool> irrigated;    ///< watered or not, whatever the site says
  bool missing_week = false;        ///< the station was down for the week before yesterday
  bool dry_ahead = false;           ///< no rain in the days to come
  bool frost_ahead = false;         ///< a frost within the days to come
  std::optional<int> record_years;  ///< so many years of the record are known, at least 1
};

/// The request with the change in it.
SiteRequest changed(SiteRequest request, const WhatIfChange& change, const advice::ComparisonRules& rules);

/// What the change is, a phrase each: "soil 3.6 F cooler", "turf not watered"; empty where nothing changes.
std::vector<std::string> change_words(const WhatIfChange& change, Day on,
                                      const advice::ComparisonRules& rules, bool us_units);

}  // namespace soilclock
