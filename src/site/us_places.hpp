// SPDX-License-Identifier: MIT
// Whether a site lies in the United States: what its answer is written in when nobody says.
#pragma once

#include <optional>

#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/time_zone.hpp"

namespace soilclock {

/// By the boxes of config/us_places.json (contiguous states, Alaska, Hawaii); a Canadian or Mexican time zone
/// says no wherever the boxes put the place. A few miles either side of the boundary can be wrong. A fault
/// when the built-in file cannot be read.
Result<bool> in_united_states(const Place& place, const std::optional<TimeZone>& zone);

}  // namespace soilclock
