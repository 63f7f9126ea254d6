// SPDX-License-Identifier: MIT
#include "soil/radiation.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace soilclock::soil {

double extraterrestrial_radiation_mj_m2(double latitude_deg, int day_of_year) {
  constexpr double pi = std::numbers::pi;
  constexpr double solar_constant_mj_m2_min = 0.0820;
  const double latitude = latitude_deg * pi / 180.0;
  const double year_angle = 2.0 * pi * day_of_year / 365.0;
  const double inverse_distance = 1.0 + 0.033 * std::cos(year_angle);
  const double declination = 0.409 * std::sin(year_angle - 1.39);
  // The clip covers the polar day and night, where the sun does not cross the horizon.
  const double sunset = std::acos(std::clamp(-std::tan(latitude) * std::tan(declination), -1.0, 1.0));
  const double sun_path = sunset * std::sin(latitude) * std::sin(declination) +
                          std::cos(latitude) * std::cos(declination) * std::sin(sunset);
  return std::max(0.0, 1440.0 / pi * solar_constant_mj_m2_min * inverse_distance * sun_path);
}

}  // namespace soilclock::soil
