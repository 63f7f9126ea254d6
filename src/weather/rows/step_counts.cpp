// SPDX-License-Identifier: MIT
#include "weather/rows/step_counts.hpp"

#include <algorithm>

namespace soilclock::weather {

std::optional<long long> StepCounts::usual() const {
  const auto most = std::max_element(counts_.begin(), counts_.end(),
                                     [](const auto& a, const auto& b) { return a.second < b.second; });
  return most == counts_.end() ? std::nullopt : std::optional{most->first};
}

}  // namespace soilclock::weather
