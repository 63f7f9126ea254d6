// SPDX-License-Identifier: MIT
// The studies: each prints a table for tests/studies/README.md.
#pragma once

#include <vector>

#include "advice/data/catalogue.hpp"
#include "studies/stations.hpp"

namespace soilclock::studies {

/// No middle date may move farther than this for a tenth of a degree ...
inline constexpr int most_days_moved = 3;
/// ... but at so few stations, by so much: where a curve lies flat all winter, weeks lie between two
/// percents.
inline constexpr int stations_excused = 4;
inline constexpr int most_days_excused = 10;

/// Every study says whether its bars hold; one without bars always does.

bool study_soil(const std::vector<Station>& stations, const advice::Catalogue& catalogue, unsigned threads);
bool study_emergence(const std::vector<Station>& stations, const advice::Catalogue& catalogue,
                     unsigned threads);
bool study_control(const std::vector<Station>& stations, const advice::Catalogue& catalogue,
                   unsigned threads);
bool study_edges(const std::vector<Station>& stations, const advice::Catalogue& catalogue, unsigned threads);
bool study_dates(const std::vector<Station>& stations, const advice::Catalogue& catalogue, unsigned threads);

}  // namespace soilclock::studies
