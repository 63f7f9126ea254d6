// SPDX-License-Identifier: MIT
#include "emergence/stages.hpp"

#include <algorithm>

namespace soilclock::emergence {

std::vector<double> thermal_age(std::span<const Temperature> air_mean, const GrowthModel& growth) {
  std::vector<double> ages;
  ages.reserve(air_mean.size());
  double age = 0.0;
  for (const Temperature mean : air_mean) {
    if (growth.clock == GrowthModel::Clock::days) {
      age += 1.0;
    } else {
      const Temperature felt = growth.upper ? std::min(mean, *growth.upper) : mean;
      age += std::max(0.0, (felt - growth.base).kelvin());
    }
    ages.push_back(age);
  }
  return ages;
}

namespace {

/// The first season day whose seedlings are younger than an age at the end of `today`.
std::size_t first_younger_than(double age, std::span<const double> thermal_age, std::size_t today) {
  const auto end = thermal_age.begin() + static_cast<std::ptrdiff_t>(today) + 1;
  return static_cast<std::size_t>(std::upper_bound(thermal_age.begin(), end, thermal_age[today] - age) -
                                  thermal_age.begin());
}

}  // namespace

std::array<std::size_t, stage_count> stage_borders(std::span<const double> thermal_age, std::size_t today,
                                                   const StageLimits& limits, double unit) {
  std::array<std::size_t, stage_count> borders{};
  for (std::size_t i = 0; i < limits.size(); ++i)
    borders[i] = first_younger_than(limits[i] * unit, thermal_age, today);
  return borders;
}

StageShares stages_at(const EmergenceCurve& curve, std::span<const double> thermal_age, int season_day,
                      const GrowthModel& growth, double phyllochron) {
  const double up = curve.at(season_day);
  if (up <= 0.0 || thermal_age.empty()) return {};
  const auto today = std::min(static_cast<std::size_t>(std::max(season_day, 0)), thermal_age.size() - 1);
  const auto up_since = [&](std::size_t first) { return (up - curve.at(static_cast<int>(first) - 1)) / up; };
  const auto borders = stage_borders(thermal_age, today, growth.limits, phyllochron);
  const double to_leaves = up_since(borders[index_of(StageClass::leaves_1_3)]);
  const double to_tiller = up_since(borders[index_of(StageClass::to_one_tiller)]);
  const double to_two = up_since(borders[index_of(StageClass::two_tillers)]);
  return {.leaves_1_3 = to_leaves,
          .to_one_tiller = to_tiller - to_leaves,
          .two_tillers = to_two - to_tiller,
          .older = 1.0 - to_two,
          .juvenile = up_since(first_younger_than(growth.juvenile_below * phyllochron, thermal_age, today))};
}

std::vector<double> juvenile_by_day(const EmergenceCurve& curve, std::span<const double> thermal_age,
                                    const GrowthModel& growth, double phyllochron) {
  std::vector<double> juvenile(thermal_age.size(), 0.0);
  std::size_t first = 0;  // day whose seedlings are still juvenile; as ages rise, it never goes back
  for (std::size_t today = 0; today < thermal_age.size(); ++today) {
    const double grown_since = thermal_age[today] - growth.juvenile_below * phyllochron;
    while (first <= today && thermal_age[first] <= grown_since) ++first;
    const double up = curve.at(static_cast<int>(today));
    if (up > 0.0) juvenile[today] = (up - curve.at(static_cast<int>(first) - 1)) / up;
  }
  return juvenile;
}

}  // namespace soilclock::emergence
