// SPDX-License-Identifier: MIT
// What a site's own readings make of its estimate, and how much better that is.
#pragma once

#include "soil/soil_temperature.hpp"

namespace soilclock::soil {

/// The estimate corrected by the readings, and how good that is.
struct FittedSoil {
  DailySeries<Temperature> fitted;  ///< best value of each day, all readings used
  int scored = 0;                   ///< readings judged, each by the readings before it only
  double rmse_before_c = 0.0;       ///< of the plain estimate on those readings; not-a-number when none
  double rmse_after_c = 0.0;
};

/// Fits a site's soil to its readings (daily means and single ones) by the error process alone: a year of
/// them tells the site's own level and swing through the year. The score predicts every reading from those up
/// to the day before.
FittedSoil fit_to_readings(const SoilTemperature& soil, Hemisphere hemisphere);

}  // namespace soilclock::soil
