// SPDX-License-Identifier: MIT
// What a site's readings say about how far its soil estimate strays and how rough the readings are.
#pragma once

#include <vector>

#include "core/place.hpp"
#include "soil/estimate_rules.hpp"
#include "soil/soil_error.hpp"

namespace soilclock::soil {

/// The error of a site's estimate and of its readings.
struct LearnedError {
  SoilErrorModel error;               ///< its variances multiplied by what was learned
  std::vector<SoilReading> readings;  ///< each with what was learned added to its variance
};

/// Weighs sizes of the estimate's error against roughness of the readings by how well they foresee each
/// reading from those before it (the likelihood of the Kalman filter's innovations; Schweppe 1965, IEEE
/// Transactions on Information Theory 11:61-70, cited from memory), with the prior of the rules, and takes
/// the means. Fewer readings than the rules ask for change nothing.
LearnedError learned_error(const SoilErrorModel& error, Hemisphere hemisphere,
                           std::vector<SoilReading> readings, const EstimateRules& rules);

}  // namespace soilclock::soil
