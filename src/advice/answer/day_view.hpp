// SPDX-License-Identifier: MIT
// All members of a target on one day.
#pragma once

#include <vector>

#include "advice/ensemble/middle_curve.hpp"
#include "advice/ensemble/target_run.hpp"
#include "core/band.hpp"
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

/// What is said of one day, in percent; young and older add up to what is up, in the middle.
struct DayBands {
  Band<double> emerged;   ///< of the season's seedlings
  Band<double> juvenile;  ///< of those up; not a number where nothing is
  Band<double> young;     ///< up and juvenile, of the season's seedlings
  Band<double> older;     ///< up and past that stage, of the season's seedlings
};

/// The spread of the members on a day around the middle curve.
DayBands bands_of(DayView view, const MiddleCurve& middle, int season_day);

}  // namespace soilclock::advice
