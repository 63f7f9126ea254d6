// SPDX-License-Identifier: MIT
// The studies: each prints a table for tests/studies/README.md.
#pragma once

#include <vector>

#include "advice/data/catalogue.hpp"
#include "studies/stations.hpp"

namespace soilclock::studies {

/// No date may move farther than this for a tenth of a degree.
inline constexpr int most_days_moved = 3;

void study_edges(const std::vector<Station>& stations, const advice::Catalogue& catalogue, unsigned threads);
void study_short_records(const std::vector<Station>& stations, const advice::Catalogue& catalogue, unsigned threads);

}  // namespace soilclock::studies
