// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "core/dates.hpp"
#include "core/place.hpp"

namespace soilclock::treatment {

/// Sunrise and sunset in hours of the clock asked for; may lie outside 0..24 where that clock is far from the
/// sun.
struct SunHours {
  double sunrise = 0.0;
  double sunset = 0.0;
};

/// Sunrise and sunset of a day at a place on a clock `utc_offset_hours` east of UTC. The sun's center at a
/// flat horizon, no refraction: up to about six minutes late at sunrise in middle latitudes. Nothing in polar
/// day or night. Source: fao56, Allen, Pereira, Raes & Smith 1998, FAO Irrigation and Drainage Paper 56,
/// equations 24, 25 and 32-34.
std::optional<SunHours> sun_hours(const Place& place, double utc_offset_hours, Day day);

}  // namespace soilclock::treatment
