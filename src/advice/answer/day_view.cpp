// SPDX-License-Identifier: MIT
#include "advice/answer/day_view.hpp"

namespace soilclock::advice {

DayView view_of(const TargetRun& run, int season_day) {
  DayView view;
  double counted = 0.0;
  for (const TargetMember& member : run.members) {
    const double up = member.curve.at(season_day);
    view.emerged_percent.push_back(100.0 * up);
    const emergence::StageShares stages = emergence::stages_at(member.curve, member.thermal_age, season_day,
                                                               *run.job.growth, member.phyllochron);
    view.young_percent.push_back(100.0 * up * stages.juvenile);
    view.older_percent.push_back(100.0 * up * (1.0 - stages.juvenile));
    if (up <= 0.0) continue;
    view.juvenile_percent.push_back(100.0 * stages.juvenile);
    view.mean_stages.leaves_1_3 += stages.leaves_1_3;
    view.mean_stages.to_one_tiller += stages.to_one_tiller;
    view.mean_stages.two_tillers += stages.two_tillers;
    view.mean_stages.older += stages.older;
    view.mean_stages.juvenile += stages.juvenile;
    counted += 1.0;
  }
  if (counted > 0.0) {
    for (double* share :
         {&view.mean_stages.leaves_1_3, &view.mean_stages.to_one_tiller, &view.mean_stages.two_tillers,
          &view.mean_stages.older, &view.mean_stages.juvenile}) {
      *share /= counted;
    }
  }
  return view;
}

}  // namespace soilclock::advice
