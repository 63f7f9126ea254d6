// SPDX-License-Identifier: MIT
// What notes of earlier seasons are worth for this one.
#pragma once

#include <string>
#include <string_view>

#include "core/problem.hpp"

namespace soilclock::advice {

/// The numbers of models/scouting/earlier_seasons.json.
struct EarlierSeasonRule {
  double season_sd_days = 0.0;    ///< of what a season moves a course by itself
  double neighbor_sd_days = 0.0;  ///< the same at a neighbor of the site
  double neighbor_power = 1.0;    ///< to which the likelihood of a neighbor's notes is taken, 0..1
  double outlier_share = 0.0;     ///< of seasons, whose notes say nothing
  double weight_kept = 0.0;       ///< share of its weight that a component model keeps whatever was found
  int seasons_most = 0;           ///< latest seasons with notes that count
};

/// Reads the file. Problems (request): unknown or missing keys, a wrong unit, a number out of range or
/// without grounds.
Result<EarlierSeasonRule> read_earlier_season_rule(std::string_view text, const std::string& file);

}  // namespace soilclock::advice
