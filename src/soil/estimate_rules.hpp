// SPDX-License-Identifier: MIT
// What all soil models share beside their coefficients: how an estimate starts, what it bridges, and how it
// is held against readings.
#pragma once

#include <string>
#include <string_view>

#include "core/depth.hpp"
#include "core/place.hpp"
#include "core/problem.hpp"

namespace soilclock::soil {

/// The usual annual wave of air temperature at a latitude, for where a site's own weather does not show it.
struct UsualYear {
  double from_latitude_deg = 0.0;
  double kelvin_per_degree = 0.0;
  double least_kelvin = 0.0;
  double most_kelvin = 0.0;
  int warmest_north = 0;  ///< day of the year
  int warmest_south = 0;

  /// Half the range between the warmest and the coldest time of the year, K.
  double amplitude_kelvin(double latitude_deg) const;
  int warmest_day(Hemisphere hemisphere) const {
    return hemisphere == Hemisphere::south ? warmest_south : warmest_north;
  }
};

/// The numbers of models/soil/estimate.json.
struct EstimateRules {
  UsualYear usual_year;
  int start_days = 0;                     ///< whose mean air an estimate starts from
  int bridged_gap_days = 0;               ///< longest run of days without air that is bridged
  int run_in_days = 0;                    ///< days of air before the unknown start has faded
  double same_depth_cm = 0.0;             ///< two depths this close are one
  double depth_variance_k2_per_cm = 0.0;  ///< added to a reading for the way to the depth asked for
  int learn_readings = 0;       ///< fewest readings that say how far the estimate and they themselves stray
  double extra_noise_k2 = 0.0;  ///< mean variance that readings have beyond what is known of them
  double error_size_sd = 0.0;   ///< how much sites differ in the size of the error, in the logarithm

  bool same_depth(Depth a, Depth b) const;
};

/// Reads the file. Problems (request): unknown or missing keys, a wrong unit, a number out of range or
/// without grounds.
Result<EstimateRules> read_estimate_rules(std::string_view text, const std::string& file);

}  // namespace soilclock::soil
