// SPDX-License-Identifier: MIT
#include "emergence/emergence_curve.hpp"

#include <algorithm>

namespace soilclock::emergence {

double EmergenceCurve::at(int season_day) const {
  if (season_day < 0 || up.empty()) return 0.0;
  return up[std::min(static_cast<std::size_t>(season_day), up.size() - 1)];
}

std::optional<int> EmergenceCurve::first_day_reaching(double share) const {
  const auto found = std::lower_bound(up.begin(), up.end(), share);
  if (found == up.end()) return std::nullopt;
  return static_cast<int>(found - up.begin());
}

void EmergenceCurve::close_at_own_total() {
  if (up.empty() || up.back() <= 0.0) return;
  const double total = up.back();
  for (double& share : up) share /= total;
}

}  // namespace soilclock::emergence
