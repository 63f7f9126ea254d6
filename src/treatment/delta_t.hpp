// SPDX-License-Identifier: MIT
#pragma once

#include "core/temperature.hpp"

namespace soilclock::treatment {

/// Wet-bulb temperature near sea level. Valid for 5..99 percent relative humidity and -20..50 C; outside it
/// is clamped to the nearest valid humidity. Error -1 to +0.65 K. Unknown temperature gives unknown. Source:
/// stull-2011, Stull 2011, Journal of Applied Meteorology and Climatology 50:2267-2269.
Temperature wet_bulb(Temperature air, double humidity_percent);

/// Delta-T, the wet-bulb depression: how fast spray drops dry.
TemperatureDelta delta_t(Temperature air, double humidity_percent);

}  // namespace soilclock::treatment
