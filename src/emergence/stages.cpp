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

namespace {

/// The first season day whose seedlings are younger than an age at the end of `today`.
std::size_t first_younger_than(double age, std::span<const double> clock, std::size_t today) {
  const auto end = clock.begin() + static_cast<std::ptrdiff_t>(today) + 1;
  return static_cast<std::size_t>(std::upper_bound(clock.begin(), end, clock[today] - age) - clock.begin());
}

}  // namespace

std::array<std::size_t, stage_count> stage_borders(std::span<const double> clock, std::size_t today,
                                                   const StageLimits& limits, double unit) {
  std::array<std::size_t, stage_count> borders{};
  for (std::size_t i = 0; i < limits.size(); ++i)
    borders[i] = first_younger_than(limits[i] * unit, clock, today);
  return borders;
}

StageShares stages_at(const EmergenceCurve& curve, std::span<const double> clock, int season_day,
                      const GrowthModel& growth, double phyllochron) {
  const double up = curve.at(season_day);
  if (up <= 0.0 || clock.empty()) return {};
  const auto today = std::min(static_cast<std::size_t>(std::max(season_day, 0)), clock.size() - 1);
  const auto up_since = [&](std::size_t first) { return (up - curve.at(static_cast<int>(first) - 1)) / up; };
  const auto borders = stage_borders(clock, today, growth.limits, phyllochron);
  const double to_leaves = up_since(borders[index_of(StageClass::leaves_1_3)]);
  const double to_tiller = up_since(borders[index_of(StageClass::to_one_tiller)]);
  const double to_two = up_since(borders[index_of(StageClass::two_tillers)]);
  return {.leaves_1_3 = to_leaves,
          .to_one_tiller = to_tiller - to_leaves,
          .two_tillers = to_two - to_tiller,
          .older = 1.0 - to_two,
          .juvenile = up_since(first_younger_than(growth.juvenile_below * phyllochron, clock, today))};
}

}  // namespace soilclock::emergence
