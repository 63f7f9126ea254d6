// SPDX-License-Identifier: MIT
// How old the seedlings that are up are: what decides whether post-emergence treatment still works.
#pragma once

#include <span>
#include <vector>

#include "core/temperature.hpp"
#include "emergence/emergence_curve.hpp"
#include "emergence/growth_model.hpp"

namespace soilclock::emergence {

/// Shares of the plants that are up; the four stages add up to 1. All 0 when nothing is up.
struct StageShares {
  double leaves_1_3 = 0.0;
  double to_one_tiller = 0.0;
  double two_tillers = 0.0;
  double older = 0.0;
  double juvenile = 0.0;  ///< before the first tiller; overlaps the stages
};

/// Thermal age at the end of each day of what stood on the first: degree-days above the model's base (its
/// upper limit respected), or days where the model counts days. `air_mean` must be complete.
std::vector<double> thermal_age(std::span<const Temperature> air_mean, const GrowthModel& growth);

/// For each stage, youngest first: the first season day whose seedlings are in it or younger at the end of
/// `today`. `thermal_age` is indexed by season day, `unit` is the drawn phyllochron (or length of a day). A
/// plant exactly at a limit is past it.
std::array<std::size_t, stage_count> stage_borders(std::span<const double> thermal_age, std::size_t today,
                                                   const StageLimits& limits, double unit);

/// Stages at the end of a season day. `thermal_age` is indexed by season day like the course; `phyllochron`
/// is the drawn interval (1 where the model counts days). A cohort's age runs from the end of the day it came
/// up.
StageShares stages_at(const EmergenceCurve& curve, std::span<const double> thermal_age, int season_day,
                      const GrowthModel& growth, double phyllochron);

/// Of those up, the share before the first tiller at the end of each season day, as stages_at() has it.
std::vector<double> juvenile_by_day(const EmergenceCurve& curve, std::span<const double> thermal_age,
                                    const GrowthModel& growth, double phyllochron);

}  // namespace soilclock::emergence
