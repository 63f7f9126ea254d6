// SPDX-License-Identifier: MIT
// How good the numbers are, over measured seasons: soilclock_studies edges|short-records
#include <cstring>
#include <iostream>
#include <stdexcept>

#include "studies/studies.hpp"

int main(int count, char** words) {
  using namespace soilclock;
  using namespace soilclock::studies;
  constexpr unsigned threads = 2;
  const std::string asked = count == 2 ? words[1] : "";
  const auto study = asked == "edges"           ? &study_edges
                     : asked == "short-records" ? &study_short_records
                                                : nullptr;
  if (study == nullptr) {
    std::cerr << "usage: soilclock_studies edges|short-records\n";
    return 2;
  }
  try {
    const auto stations = read_stations();
    if (!stations) return 0;
    const auto catalogue = advice::load_catalogue(advice::built_in_files());
    if (!catalogue) throw std::runtime_error{describe(catalogue.error())};
    study(*stations, *catalogue, threads);
    return 0;
  } catch (const std::exception& mistake) {
    std::cerr << mistake.what() << '\n';
    return 70;
  }
}
