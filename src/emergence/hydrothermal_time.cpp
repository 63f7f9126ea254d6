// SPDX-License-Identifier: MIT
#include "emergence/hydrothermal_time.hpp"

#include <algorithm>

#include "emergence/season_drivers.hpp"

namespace soilclock::emergence {

WaterPotential driest_for(const HydrothermalParameters& p, Temperature soil) {
  const double above = std::max(0.0, (soil - p.warm_from).kelvin());
  return WaterPotential::from_mpa(std::min(0.0, p.base_potential.mpa() + p.rise_mpa_per_kelvin * above));
}

std::vector<DegreeDays> hydrothermal_sum(std::span<const Temperature> soil,
                                         std::span<const WaterPotential> water,
                                         const HydrothermalParameters& p, int from_day) {
  std::vector<DegreeDays> sum;
  sum.reserve(soil.size());
  double total = 0.0;
  for (std::size_t i = lead_in_days; i < soil.size(); ++i) {
    const WaterPotential here = i < water.size() ? water[i] : WaterPotential::unknown();
    const double moist = here >= driest_for(p, soil[i]) ? 1.0 : 0.0;
    const double speed = here.known() ? moist : p.unknown_water_speed;
    if (static_cast<int>(i) - lead_in_days >= from_day)
      total += speed * std::max(0.0, (soil[i] - p.base).kelvin());
    sum.push_back(DegreeDays::from_celsius_days(total));
  }
  return sum;
}

}  // namespace soilclock::emergence
