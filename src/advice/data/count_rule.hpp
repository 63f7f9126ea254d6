// SPDX-License-Identifier: MIT
// What counts, looks at the ground and stages somebody noted are worth.
#pragma once

#include <string>
#include <string_view>

#include "core/problem.hpp"

namespace soilclock::advice {

/// The numbers of models/scouting/counts.json.
struct CountRule {
  double usual_plot_m2 = 0.0;      ///< of plots whose size nobody noted
  double full_cover = 0.0;         ///< median share of the ground that all of the season's seedlings cover
  double full_cover_log_sd = 0.0;  ///< of its logarithm
  double look_log_sd = 0.0;        ///< of the logarithm of the cover judged by eye
  double least_seen = 0.0;         ///< share of the ground below which none is seen
  double most_seen = 0.0;          ///< share that cannot be told from all
  double stage_misjudged = 0.0;    ///< share of looks that name another stage than most plants are in
  double least_effective = 0.0;    ///< share of the members; with fewer left in effect they are moved
};

/// Reads the file. Problems (request): unknown or missing keys, a wrong unit, a number out of range or
/// without grounds.
Result<CountRule> read_count_rule(std::string_view text, const std::string& file);

}  // namespace soilclock::advice
