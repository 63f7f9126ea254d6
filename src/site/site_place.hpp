// SPDX-License-Identifier: MIT
// Slips in the place of a site that are numbers in range and still wrong: latitude and longitude exchanged,
// the minus sign of west forgotten. Each would give a whole answer for another part of the world.
#pragma once

#include <optional>

#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/time_zone.hpp"

namespace soilclock {

/// A request problem (without a place in the input) when no turf can be there, or when the clock of the zone
/// is hours off the sun. The second is not judged without a zone, nor for one that keeps universal time.
std::optional<Problem> place_problem(const Place& place, const std::optional<TimeZone>& zone);

}  // namespace soilclock
