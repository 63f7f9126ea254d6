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

/// Reading of the growth clock at the end of each day: degree-days above the model's base (its upper limit
/// respected) or days. `air_mean` must be complete.
std::vector<double> growth_clock(std::span<const Temperature> air_mean, const GrowthModel& growth);

/// Stages at the end of a season day. `clock` is indexed by season day like the course; `phyllochron` is
/// the drawn interval (1 where the model counts days). A cohort's age runs from the end of the day it came
/// up.
StageShares stages_at(const EmergenceCurve& curve, std::span<const double> clock, int season_day,
                      const GrowthModel& growth, double phyllochron);

}  // namespace soilclock::emergence
