// SPDX-License-Identifier: MIT
// The measured records of the eastern stations, with the estimate made for each.
#pragma once

#include <vector>

#include "soil/soil_error.hpp"
#include "soil/soil_estimate.hpp"
#include "soil_files.hpp"
#include "support/reference_station.hpp"

namespace soilclock::soil {

inline const std::vector<tests::ReferenceStation>& eastern_stations() {
  static const std::vector<tests::ReferenceStation> stations = [] {
    std::vector<tests::ReferenceStation> result;
    for (tests::ReferenceStation& station : tests::reference_stations()) {
      if (!tests::is_eastern(station)) continue;
      station.air_mean = tests::short_gaps_filled(station.air_mean, 3);
      result.push_back(std::move(station));
    }
    return result;
  }();
  return stations;
}

inline DailySeries<Temperature> estimated(const tests::ReferenceStation& station, int cm) {
  const SoilEstimator estimator{tests::eastern_pair(), Depth::from_cm(cm), station.place.latitude_deg};
  return estimate_soil(station.air_mean, estimator);
}

inline SoilErrorModel error_model(int cm) {
  return tests::soil_files().choose(Place{36.0, -85.0, {}}).error_at(Depth::from_cm(cm));
}

}  // namespace soilclock::soil
