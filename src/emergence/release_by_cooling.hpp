// SPDX-License-Identifier: MIT
// The release member for annual bluegrass: cooling soil releases ever more of the seed pool; each released
// part comes up after a thermal time that only runs while the surface is moist.
#pragma once

#include "core/degree_days.hpp"

#include "emergence/curves.hpp"
#include "emergence/emergence_curve.hpp"
#include "emergence/season_drivers.hpp"

namespace soilclock::emergence {

struct ReleaseParameters {
  ReleaseCeiling ceiling;  ///< share of the pool a soil temperature sets free
  double ceiling_shift_c;  ///< a warmer (+) or cooler (-) ecotype, C
  int release_from_day;    ///< season day from which cooling releases seed
  Temperature base;        ///< of the emergence clock
  DegreeDays half_up;      ///< thermal time at which half of a released part is up
  int steepness;           ///< whole exponent of the log-logistic delay
  double dry_speed;
  Rain full_water;
  double unknown_rain_speed;  ///< speed taken when rain is not known
  double autumn_share;        ///< share of the autumn part in the season's total
  int winter_from_day;        ///< season day on which the winter part begins
  int winter_to_day;
  Temperature winter_soil;  ///< winter emergence needs soil above this
};

/// The course of a season; the winter part is measured by the member's own whole season, so the course ends
/// at 1.
EmergenceCurve run_release_by_cooling(const SeasonDrivers& drivers, const ReleaseParameters& parameters);

}  // namespace soilclock::emergence
