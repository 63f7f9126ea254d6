// SPDX-License-Identifier: MIT
// What notes of earlier seasons are worth for this one.
#pragma once

#include <string>
#include <string_view>

#include "core/problem.hpp"

namespace soilclock::advice {

/// The numbers of models/scouting/earlier_seasons.json.
struct EarlierSeasonRule {
  double site_share = 0.0;   ///< of the variance of a component model's days, that stays with a site
  double group_share = 0.0;  ///< of what stays with a site, that the sites of a group have in common
  double outlier_share = 0.0;  ///< of seasons, whose notes say nothing
  double weight_kept = 0.0;    ///< share of its weight that a component model keeps whatever was found
  int shapes = 0;              ///< members of a component model whose courses are held against the notes
  int reach_days = 0;          ///< that a course is moved either way
  int seasons_most = 0;        ///< latest seasons with notes that count
};

/// Reads the file. Problems (request): unknown or missing keys, a wrong unit, a number out of range or
/// without grounds.
Result<EarlierSeasonRule> read_earlier_season_rule(std::string_view text, const std::string& file);

}  // namespace soilclock::advice
