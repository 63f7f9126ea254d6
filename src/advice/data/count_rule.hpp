// SPDX-License-Identifier: MIT
// What counts, looks at the ground and stages somebody noted are worth.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/problem.hpp"

namespace soilclock::advice {

/// When counts are flagged as unlike anything the ensemble could have brought forth.
struct CountCheckRule {
  double curve_surprise = 0.0;    ///< share of true series that may be flagged as unlike all seasons
  double plots_surprise = 0.0;    ///< share that may be flagged as patchy
  std::size_t visits_judged = 0;  ///< fewest visits ...
  std::size_t plots_judged = 0;   ///< ... of so many plots that are judged
  double density_least = 0.0;     ///< plants on a square meter that a visit may have by itself
  double density_most = 0.0;
  std::vector<double> empty_shares;  ///< of plots that hold none for another reason than chance, 0..1
};

/// The numbers of models/scouting/counts.json.
struct CountRule {
  double total_median = 0.0;  ///< of the season's seedlings on a square meter, log-normal
  double total_log_sd = 0.0;
  double patchiness_median = 0.0;  ///< of the negative binomial's k (small is patchy), log-normal
  double patchiness_log_sd = 0.0;
  double patchiness_least = 0.0;  ///< where k is cut
  double patchiness_most = 0.0;
  double stray_share = 0.0;  ///< of the season's seedlings, that may stand where a season says none is up
  std::vector<int> trial_shifts;   ///< days by which seasons are tried earlier and later when few fit
  double usual_plot_m2 = 0.0;      ///< of plots whose size nobody noted
  double full_cover = 0.0;         ///< median share of the ground that all of the season's seedlings cover
  double full_cover_log_sd = 0.0;  ///< of its logarithm
  double look_log_sd = 0.0;        ///< of the logarithm of the cover judged by eye
  double least_seen = 0.0;         ///< share of the ground below which none is seen
  double most_seen = 0.0;          ///< share that counts cannot distinguish from all
  double stage_misjudged = 0.0;    ///< share of looks that name another stage than most plants are in
  double least_effective = 0.0;    ///< share of the members; with fewer left in effect they are moved
  CountCheckRule check;
};

/// Reads the file. Problems (request): unknown or missing keys, a wrong unit, a number out of range or
/// without grounds.
Result<CountRule> read_count_rule(std::string_view text, const std::string& file);

}  // namespace soilclock::advice
