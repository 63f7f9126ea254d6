// SPDX-License-Identifier: MIT
// Numbers as a file writes them, by the unit of their column.
#pragma once

#include "core/rain.hpp"
#include "core/temperature.hpp"
#include "weather/columns/heading_meaning.hpp"

namespace soilclock::weather {

Temperature to_temperature(double value, Unit unit);
Rain to_rain(double value, Unit unit);
/// Meters per second.
double to_wind_speed(double value, Unit unit);

}  // namespace soilclock::weather
