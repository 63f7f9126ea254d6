// SPDX-License-Identifier: MIT
// All members of a target on a day.
#pragma once

#include <vector>

#include "advice/ensemble/middle_curve.hpp"
#include "advice/ensemble/target_run.hpp"
#include "core/band.hpp"
#include "emergence/stages.hpp"

namespace soilclock::advice {

/// Stages at the end of a season day, mean over the members with plants up.
emergence::StageShares mean_stages(const TargetRun& run, int season_day);

/// What is said of one day, in percent; young and older add up to what is up, in the middle.
struct DayBands {
  Band<double> emerged;   ///< of the season's seedlings
  Band<double> juvenile;  ///< of those up; not a number where nothing is
  Band<double> young;     ///< up and juvenile, of the season's seedlings
  Band<double> older;     ///< up and past that stage, of the season's seedlings
};

/// The spread of the members at the end of one day of the season around the middle curve.
DayBands bands_on(const TargetRun& run, const MiddleCurve& middle, int season_day);

/// The members of a target on all days of its season.
class DayView {
 public:
  /// `run` must outlive this.
  explicit DayView(const TargetRun& run);

  /// As bands_on() has it.
  DayBands bands(const MiddleCurve& middle, int season_day) const;

 private:
  const TargetRun& run_;
  std::vector<std::vector<double>> juvenile_;  ///< share of those up, by member and season day
};

}  // namespace soilclock::advice
