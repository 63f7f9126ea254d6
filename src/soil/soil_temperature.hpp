// SPDX-License-Identifier: MIT
// The front of this floor: the soil temperature of a site at a depth, measured where there is a probe,
// estimated elsewhere, with its error and with what must be said about it.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/remark.hpp"
#include "soil/soil_error.hpp"
#include "soil/soil_estimate.hpp"
#include "soil/soil_model.hpp"

namespace soilclock::soil {

/// Readings of one day and depth made into a daily mean (see probe_rules.hpp).
struct SpotMean {
  Day day{};
  Depth depth = Depth::from_cm(5.0);
  Temperature mean;
  double variance_k2 = 0.0;  ///< of the mean as the site's daily mean; above 0
};

/// What is known of a site's soil.
struct SoilSite {
  std::optional<Place> place;  ///< empty: the one-memory form is used
  Depth depth = Depth::from_cm(5.0);
  TemperatureDelta offset;  ///< added to every estimate
  /// Daily means of probes by depth.
  std::map<Depth, DailySeries<Temperature>> measured;
  /// Single readings; they move the estimate and narrow its error, but do not stand for a day as daily means
  /// do.
  std::vector<SpotMean> spots = {};
  bool us_units = false;  ///< of the remarks
};

/// mixed: estimated days beside measured ones, or an estimate corrected by readings.
enum class SoilOrigin { estimated, measured, mixed };
/// "estimated", "measured" or "mixed".
std::string_view name(SoilOrigin origin);

struct SoilTemperature {
  DailySeries<Temperature> daily;     ///< measured where measured at this depth, else the estimate
  DailySeries<Temperature> estimate;  ///< never looks at the readings
  SoilOrigin origin = SoilOrigin::estimated;
  SoilErrorModel error;               ///< of the estimate at this depth, of the size the readings say
  std::vector<SoilReading> readings;  ///< what conditions the error, as rough as they turn out
  TemperatureDelta expected_error;    ///< standard deviation of `daily` on its last day, readings used
  std::vector<Remark> remarks;
  std::string model_id;  ///< of the shallow member of the coefficients used
  SoilEstimator estimator;
  std::optional<SoilState> state;  ///< after the last day of air, to append futures; empty without any air
};

/// The soil temperature over the days of `air_mean` and of the probe. Depths beyond 2.5 to 15 cm are taken at
/// the nearest end. A probe at the depth passes through and wins day by day. Every probe becomes readings of
/// the estimate's error: the nearest depth of a day, with more variance the further apart the depths are. A
/// spot of a day after the last one of air is held against the estimate of that last day: its variance must
/// allow for it. Remarks: those of the model choice, "soil-short-run-in", "soil-air-gap" and
/// "soil-cross-check" (the published canopy recursion has lately been far from the estimate).
SoilTemperature soil_temperature(const SoilModels& models, const SoilSite& site,
                                 const DailySeries<Temperature>& air_mean);

/// Which readings move a day: all around it, or only those up to and including it (what was known then).
enum class MovedBy { all_readings, readings_so_far };

/// Best value of each day of a range: measured as it is, estimated ones moved by what the readings say.
DailySeries<Temperature> corrected(const SoilTemperature& soil, Hemisphere hemisphere, DayRange days,
                                   MovedBy moved_by = MovedBy::all_readings);

}  // namespace soilclock::soil
