// SPDX-License-Identifier: MIT
// What drives emergence over one whole season, in one possible course of the weather.
#pragma once

#include <span>
#include <vector>

#include "core/rain.hpp"
#include "core/season.hpp"
#include "core/temperature.hpp"
#include "core/water_potential.hpp"

namespace soilclock::emergence {

/// Days kept before the season's first day, so that trailing weeks are whole from the first day on.
inline constexpr int lead_in_days = 10;

/// Whether turf gets water beside rain.
struct Irrigation {
  bool irrigated = false;    ///< kept from drying out
  double mm_per_week = 0.0;  ///< added to the rain of seven days, when the user states an amount
};

/// What all models are run by.
struct CurveRules {
  double main_wave_over = 0.0;  ///< share of the main wave from which it counts as over, 0..1
};

/// Daily values over lead-in and season; index = day of season + lead_in_days. Temperatures are complete. The
/// values belong to the caller and must outlive this view.
struct SeasonDrivers {
  Season season;
  Irrigation irrigation;
  std::span<const Temperature> soil;          ///< daily mean at 5 cm
  std::span<const Temperature> soil_shallow;  ///< daily mean at 2.5 cm
  std::span<const Temperature> air_mean;      ///< (maximum + minimum) / 2
  std::span<const Rain> week_water;           ///< by day of season, see week_of_water(); may be unknown
  CurveRules rules;
  std::span<const WaterPotential> surface_water = {};  ///< in the evening, where seed lies; may be unknown

  int season_days() const { return static_cast<int>(soil.size()) - lead_in_days; }
};

/// Mean of the seven days ending on each season day; index = day of season. Needs a lead-in of at least six
/// days.
std::vector<Temperature> trailing_week(std::span<const Temperature> daily);

/// Water of the seven days ending on each season day: rain (scaled to seven days where so many of them as
/// needed are known, else unknown) and stated irrigation. `rain` may be unknown on single days.
std::vector<Rain> week_of_water(std::span<const Rain> rain, const Irrigation& irrigation, int days_needed);

}  // namespace soilclock::emergence
