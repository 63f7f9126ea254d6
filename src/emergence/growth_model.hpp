// SPDX-License-Identifier: MIT
// How fast a seedling grows after it is up: what turns the age of a cohort into a stage.
#pragma once

#include <string>
#include <vector>

#include "emergence/emergence_model.hpp"
#include "emergence/stage_class.hpp"

namespace soilclock::emergence {

/// Stage limits are ages. With clock thermal_time an age is a sum of air temperature above the base in units
/// of the phyllochron; with clock days it is days since emergence.
struct GrowthModel : ModelHead {
  enum class Clock { thermal_time, days };
  std::vector<std::string> targets;  ///< EPPO codes
  Clock clock = Clock::thermal_time;
  Parameter phyllochron;             ///< C d per leaf (thermal_time); 1 d (days)
  Temperature base;                  ///< thermal_time only
  std::optional<Temperature> upper;  ///< temperatures above count as this
  /// In phyllochrons (thermal_time) or days: what is shown as a stage and what is killed as one.
  StageLimits limits{};
  double juvenile_below = 0.0;  ///< the age at which the first tiller comes
};

/// Strict, as read_emergence_model.
Result<GrowthModel> read_growth_model(std::string_view text, const std::string& file);

}  // namespace soilclock::emergence
