// SPDX-License-Identifier: MIT
// All members of a target on one day.
#pragma once

#include <vector>

#include "advice/ensemble/target_run.hpp"
#include "emergence/stages.hpp"

namespace soilclock::advice {

/// Values of all members at the end of one season day.
struct DayView {
  std::vector<double> emerged_percent;   ///< of the season's seedlings
  std::vector<double> juvenile_percent;  ///< of those up; members with plants up only
  std::vector<double> young_percent;     ///< up and juvenile, of the season's seedlings
  std::vector<double> older_percent;     ///< up and past that stage, of the season's seedlings
  emergence::StageShares mean_stages;    ///< over the members with plants up
};

DayView view_of(const TargetRun& run, int season_day);

}  // namespace soilclock::advice
