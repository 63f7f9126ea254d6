// SPDX-License-Identifier: MIT
// Warmth that counts only while the soil around the seed is moist enough.
#pragma once

#include <span>
#include <vector>

#include "core/degree_days.hpp"
#include "core/temperature.hpp"
#include "core/water_potential.hpp"

namespace soilclock::emergence {

struct HydrothermalParameters {
  Temperature base;                  ///< no progress at or below
  WaterPotential base_potential;     ///< driest soil in which seed makes progress
  double rise_mpa_per_kelvin = 0.0;  ///< of that limit, for each degree above warm_from; 0 or more
  Temperature warm_from;             ///< warmer seed asks for moister soil
  double unknown_water_speed = 1.0;  ///< share of full speed while the soil's water is not known, 0..1
};

/// The driest soil in which seed makes progress at a temperature; at most 0.
WaterPotential driest_for(const HydrothermalParameters& parameters, Temperature soil);

/// Running sum of max(0, soil - base) over days from `from_day` on that are moist enough; 0 before. Both
/// series begin lead_in_days before the season; days past the end of `water` count as not known.
std::vector<DegreeDays> hydrothermal_sum(std::span<const Temperature> soil,
                                         std::span<const WaterPotential> water,
                                         const HydrothermalParameters& parameters, int from_day);

}  // namespace soilclock::emergence
