// SPDX-License-Identifier: MIT
// The soil-crossing member for annual bluegrass: a daily clock that runs when the soil has cooled, stands
// still in warm spells and dry weeks, and never runs backward, so that no crossing date has to be found.
#pragma once

#include "emergence/emergence_curve.hpp"
#include "emergence/season_drivers.hpp"

namespace soilclock::emergence {

struct GatedClockParameters {
  Temperature crossing;       ///< Tc: soil at which half the speed is reached
  TemperatureDelta width;     ///< w: how sharply speed depends on soil temperature
  double release_scale_days;  ///< s
  double lag_days;            ///< tau: from ready to up
  double autumn_share;        ///< c: share of the autumn wave in the season's total
  double rest_middle_day;     ///< season day on which half the seed has left summer rest
  double rest_scale_days;
  Temperature cold_stop;      ///< nothing emerges below
  Temperature cold_full;      ///< no hindrance from cold above
  double dry_speed;           ///< share of full speed left in a dry week
  Rain full_water;            ///< water in seven days from which on speed is full
  double irrigated_speed;     ///< least speed on irrigated turf
  double unknown_rain_speed;  ///< speed taken when rain is not known
  double weakest_cold_gate;   ///< what is released still comes up in the coldest weeks, at this share of full
                              ///< speed
  TemperatureDelta winter_crossing_shift;  ///< the remainder runs so far above the crossing
  double winter_dry_speed;                 ///< dry_speed of the remainder
};

/// The course of a season. The remainder clock (winter and spring emergence) is measured by the member's own
/// whole season, so the course ends at 1.
EmergenceCurve run_gated_clock(const SeasonDrivers& drivers, const GatedClockParameters& parameters);

}  // namespace soilclock::emergence
