// SPDX-License-Identifier: MIT
// What the air takes from a green, well-watered surface in a day, from temperatures alone.
#pragma once

#include "core/rain.hpp"
#include "core/temperature.hpp"

namespace soilclock::soil {

/// Reference evapotranspiration of one day: 0.0023 (mean + 17.8) sqrt(range) Ra, Ra as the depth of water it
/// can evaporate; never below 0. `range` is the day's maximum less its minimum, 0 or more; latitude in
/// degrees, south negative, -90..90; day of year 1..366. Sources: hargreaves-samani-1985, Hargreaves & Samani
/// 1985, Applied Engineering in Agriculture 1:96-99; fao56, Allen et al. 1998, equations 20 (1 MJ per square
/// meter evaporates 0.408 mm) and 52.
Rain reference_evapotranspiration(Temperature mean, TemperatureDelta range, double latitude_deg,
                                  int day_of_year);

}  // namespace soilclock::soil
