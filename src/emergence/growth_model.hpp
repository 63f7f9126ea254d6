// SPDX-License-Identifier: MIT
// How fast a seedling grows after it is up: what turns the age of a cohort into a stage.
#pragma once

#include <string>
#include <vector>

#include "emergence/emergence_model.hpp"

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
  /// Upper age limits of the first three stages and of the juvenile state, in phyllochrons (thermal_time)
  /// or days.
  double leaves_1_3_below = 0.0;
  double to_one_tiller_below = 0.0;
  double two_tillers_below = 0.0;
  double juvenile_below = 0.0;
};

/// Strict, as read_emergence_model.
Result<GrowthModel> read_growth_model(std::string_view text, const std::string& file);

}  // namespace soilclock::emergence
