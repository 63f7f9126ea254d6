// SPDX-License-Identifier: MIT
// Sunshine above the atmosphere: the astronomical part of the seasons, known from latitude and date alone.
#pragma once

namespace soilclock::soil {

/// Extraterrestrial radiation on a horizontal surface over one day, MJ per square meter; 0 in the polar
/// night. Latitude in degrees, south negative, -90..90; day of year 1..366. Source: fao56, Allen, Pereira,
/// Raes & Smith 1998, FAO Irrigation and Drainage Paper 56, equations 21 and 23-25.
double extraterrestrial_radiation_mj_m2(double latitude_deg, int day_of_year);

}  // namespace soilclock::soil
