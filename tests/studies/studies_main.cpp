// SPDX-License-Identifier: MIT
// How good the numbers are, over measured seasons: soilclock_studies soil|dates|emergence|control|edges
#include <iostream>
#include <stdexcept>
#include <string>

#include "studies/studies.hpp"

int main(int count, char** words) {
  using namespace soilclock;
  using namespace soilclock::studies;
  constexpr unsigned threads = 2;
  const std::string asked = count >= 2 ? words[1] : "";
  const bool check = count == 3 && asked == "edges" && std::string{words[2]} == "--check";
  const auto study = asked == "soil"        ? &study_soil
                     : asked == "edges"     ? &study_edges
                     : asked == "dates"     ? &study_dates
                     : asked == "emergence" ? &study_emergence
                     : asked == "control"   ? &study_control
                                            : nullptr;
  if (study == nullptr || (count != 2 && !check)) {
    std::cerr << "usage: soilclock_studies soil|dates|emergence|control|edges [--check]\n";
    return 2;
  }
  try {
    // Trials and strips need no stations.
    const auto stations = asked == "control" ? std::optional{std::vector<Station>{}} : read_stations();
    if (!stations) return 0;
    const auto catalogue = advice::load_catalogue(advice::built_in_files());
    if (!catalogue) throw std::runtime_error{describe(catalogue.error())};
    return study(*stations, *catalogue, threads) || !check ? 0 : 1;
  } catch (const std::exception& mistake) {
    std::cerr << mistake.what() << '\n';
    return 70;
  }
}
