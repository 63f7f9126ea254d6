// SPDX-License-Identifier: MIT
// What a site's own readings say about the estimate: a straight line from a year or more of them, else the
// error process.
#pragma once

#include <optional>

#include "soil/soil_temperature.hpp"

namespace soilclock::soil {

/// reading = intercept + slope * estimate, by least squares.
struct SiteLine {
  double slope = 1.0;
  double intercept_c = 0.0;
  int readings = 0;

  Temperature at(Temperature estimate) const;
};

/// The line through readings given as errors of the estimate; nothing with too few, too short a span or no
/// spread.
std::optional<SiteLine> fit_line(const SoilTemperature& soil);

/// The estimate corrected by the readings, and how good that is.
struct FittedSoil {
  DailySeries<Temperature> fitted;  ///< best value of each day, all readings used
  std::optional<SiteLine> line;     ///< set when a year of readings allowed one
  int scored = 0;                   ///< readings judged, each by the readings before it only
  double rmse_before_c = 0.0;       ///< of the plain estimate on those readings; not-a-number when none
  double rmse_after_c = 0.0;
};

/// Fits a site's soil to its readings (daily means and single ones). The score predicts every reading from
/// earlier ones: the line is refitted on the readings before, the error process is filtered up to the day
/// before.
FittedSoil fit_to_readings(const SoilTemperature& soil, Hemisphere hemisphere);

}  // namespace soilclock::soil
