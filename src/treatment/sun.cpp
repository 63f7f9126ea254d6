// SPDX-License-Identifier: MIT
#include "treatment/sun.hpp"

#include <cmath>
#include <numbers>

namespace soilclock::treatment {

std::optional<SunHours> sun_hours(const Place& place, double utc_offset_hours, Day day) {
  constexpr double pi = std::numbers::pi;
  const double j = day_of_year(day);
  const double latitude = place.latitude_deg * pi / 180.0;
  const double declination = 0.409 * std::sin(2.0 * pi * j / 365.0 - 1.39);  // equation 24
  const double cosine = -std::tan(latitude) * std::tan(declination);         // equation 25
  if (std::abs(cosine) >= 1.0) return std::nullopt;
  const double half_day = 12.0 / pi * std::acos(cosine);  // equation 34, halved
  const double b = 2.0 * pi * (j - 81.0) / 364.0;         // equation 33
  const double correction =
      0.1645 * std::sin(2.0 * b) - 0.1255 * std::cos(b) - 0.025 * std::sin(b);  // equation 32
  const double noon = 12.0 + utc_offset_hours - place.longitude_deg / 15.0 - correction;
  return SunHours{noon - half_day, noon + half_day};
}

}  // namespace soilclock::treatment
