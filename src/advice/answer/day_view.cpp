// SPDX-License-Identifier: MIT
#include "advice/answer/day_view.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "advice/ensemble/quantiles.hpp"

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

namespace {

/// Puts another middle into a band, which is widened where it lies outside.
Band<double> around(Band<double> band, double middle) {
  return {std::min(band.low, middle), middle, std::max(band.high, middle)};
}

}  // namespace

DayBands bands_of(DayView view, const MiddleCurve& middle, int season_day) {
  const double emerged = 100.0 * middle.at(season_day);
  DayBands bands;
  bands.juvenile = band_of(std::move(view.juvenile_percent));
  const double young_share = std::isfinite(bands.juvenile.middle) ? bands.juvenile.middle / 100.0 : 0.0;
  bands.emerged = around(band_of(std::move(view.emerged_percent)), emerged);
  bands.young = around(band_of(std::move(view.young_percent)), emerged * young_share);
  bands.older = around(band_of(std::move(view.older_percent)), emerged * (1.0 - young_share));
  return bands;
}

}  // namespace soilclock::advice
