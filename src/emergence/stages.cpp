// SPDX-License-Identifier: MIT
#include "emergence/stages.hpp"

#include <algorithm>

namespace soilclock::emergence {

std::vector<double> growth_clock(std::span<const Temperature> air_mean, const GrowthModel& growth) {
  std::vector<double> clock;
  clock.reserve(air_mean.size());
  double reading = 0.0;
  for (const Temperature mean : air_mean) {
    if (growth.clock == GrowthModel::Clock::days) {
      reading += 1.0;
    } else {
      const Temperature felt = growth.upper ? std::min(mean, *growth.upper) : mean;
      reading += std::max(0.0, (felt - growth.base).kelvin());
    }
    clock.push_back(reading);
  }
  return clock;
}

StageShares stages_at(const EmergenceCurve& curve, std::span<const double> clock, int season_day,
                      const GrowthModel& growth, double phyllochron) {
  const double up = curve.at(season_day);
  if (up <= 0.0 || clock.empty()) return {};
  const auto today = std::min(static_cast<std::size_t>(std::max(season_day, 0)), clock.size() - 1);
  // Share of those up that is younger than an age: what came up after the clock passed (now - age).
  const auto younger_than = [&](double leaves) {
    const double limit = clock[today] - leaves * phyllochron;
    const auto first_young =
        std::upper_bound(clock.begin(), clock.begin() + static_cast<std::ptrdiff_t>(today) + 1, limit);
    const int last_old = static_cast<int>(first_young - clock.begin()) - 1;
    return (up - curve.at(last_old)) / up;
  };
  const double to_leaves = younger_than(growth.leaves_1_3_below);
  const double to_tiller = younger_than(growth.to_one_tiller_below);
  const double to_two = younger_than(growth.two_tillers_below);
  return {.leaves_1_3 = to_leaves,
          .to_one_tiller = to_tiller - to_leaves,
          .two_tillers = to_two - to_tiller,
          .older = 1.0 - to_two,
          .juvenile = younger_than(growth.juvenile_below)};
}

}  // namespace soilclock::emergence
