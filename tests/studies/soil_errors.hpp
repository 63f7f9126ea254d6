// SPDX-License-Identifier: MIT
// How far the soil estimate is off: with a reading a week, and in the year after one of daily readings.
#pragma once

#include <vector>

#include "advice/data/catalogue.hpp"
#include "soil/soil_temperature.hpp"
#include "studies/stations.hpp"

namespace soilclock::studies {

/// Four years of record lie before it.
inline constexpr int first_judged_season = 2013;

/// A normal error of so many K of each reading; every station and every draw has numbers of its own.
struct ReadingNoise {
  double sd_k = 0.0;
  unsigned draw = 0;
};

/// The measured soil of one day a week from 2012 to before `until`, with this noise, as readings whose own
/// error is not known. Nothing without measured soil.
std::vector<soil::SpotMean> weekly_spots(const Station& station, ReadingNoise noise, Day until,
                                         const advice::Catalogue& catalogue);

/// Prints the tables of root mean square errors in spring (March to May) and fall (September to November).
void print_soil_errors(const std::vector<const Station*>& stations, const advice::Catalogue& catalogue,
                       unsigned threads);

}  // namespace soilclock::studies
