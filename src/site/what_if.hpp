// SPDX-License-Identifier: MIT
// Small changes of a site before it is answered for: what if the soil were cooler, the turf not watered?
#pragma once

#include <optional>

#include "core/temperature.hpp"
#include "pipeline.hpp"

namespace soilclock {

/// What a what-if changes; what is left as it is changes nothing. Another plan or day is asked for as such.
struct WhatIfChange {
  TemperatureDelta soil;          ///< warmer is positive, on top of the site's own offset
  std::optional<bool> irrigated;  ///< watered or not, whatever the site says
};

/// The request with the change in it.
SiteRequest changed(SiteRequest request, const WhatIfChange& change);

}  // namespace soilclock
