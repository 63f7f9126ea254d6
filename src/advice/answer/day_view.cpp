// SPDX-License-Identifier: MIT
#include "advice/answer/day_view.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "advice/ensemble/quantiles.hpp"

namespace soilclock::advice {

namespace {

/// Puts another middle into a band, which is widened where it lies outside.
Band<double> around(Band<double> band, double middle) {
  return {std::min(band.low, middle), middle, std::max(band.high, middle)};
}

/// `shares` are those of the plants up that are juvenile, by member.
DayBands bands_of(const TargetRun& run, const std::vector<double>& shares, const MiddleCurve& middle,
                  int season_day) {
  std::vector<double> emerged;
  std::vector<double> juvenile;  // of the members with plants up
  std::vector<double> young;
  std::vector<double> older;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const double up = run.members[i].curve.at(season_day);
    const double share = shares[i];
    emerged.push_back(100.0 * up);
    young.push_back(100.0 * up * share);
    older.push_back(100.0 * up * (1.0 - share));
    if (up > 0.0) juvenile.push_back(100.0 * share);
  }
  const double middle_up = 100.0 * middle.at(season_day);
  DayBands bands;
  bands.juvenile = band_of(std::move(juvenile));
  const double young_share = std::isfinite(bands.juvenile.middle) ? bands.juvenile.middle / 100.0 : 0.0;
  bands.emerged = around(band_of(std::move(emerged)), middle_up);
  bands.young = around(band_of(std::move(young)), middle_up * young_share);
  bands.older = around(band_of(std::move(older)), middle_up * (1.0 - young_share));
  return bands;
}

}  // namespace

emergence::StageShares mean_stages(const TargetRun& run, int season_day) {
  emergence::StageShares mean;
  double counted = 0.0;
  for (const TargetMember& member : run.members) {
    if (member.curve.at(season_day) <= 0.0) continue;
    const emergence::StageShares stages = emergence::stages_at(member.curve, member.thermal_age, season_day,
                                                               *run.job.growth, member.phyllochron);
    mean.leaves_1_3 += stages.leaves_1_3;
    mean.to_one_tiller += stages.to_one_tiller;
    mean.two_tillers += stages.two_tillers;
    mean.older += stages.older;
    mean.juvenile += stages.juvenile;
    counted += 1.0;
  }
  if (counted > 0.0) {
    for (double* share :
         {&mean.leaves_1_3, &mean.to_one_tiller, &mean.two_tillers, &mean.older, &mean.juvenile})
      *share /= counted;
  }
  return mean;
}

DayView::DayView(const TargetRun& run) : run_{run} {
  juvenile_.reserve(run.members.size());
  for (const TargetMember& member : run.members) {
    juvenile_.push_back(
        emergence::juvenile_by_day(member.curve, member.thermal_age, *run.job.growth, member.phyllochron));
  }
}

DayBands bands_on(const TargetRun& run, const MiddleCurve& middle, int season_day) {
  std::vector<double> juvenile;
  juvenile.reserve(run.members.size());
  for (const TargetMember& member : run.members) {
    juvenile.push_back(emergence::stages_at(member.curve, member.thermal_age, season_day, *run.job.growth,
                                            member.phyllochron)
                           .juvenile);
  }
  return bands_of(run, juvenile, middle, season_day);
}

DayBands DayView::bands(const MiddleCurve& middle, int season_day) const {
  std::vector<double> juvenile;
  juvenile.reserve(juvenile_.size());
  for (const std::vector<double>& member : juvenile_)
    juvenile.push_back(season_day < 0 ? 0.0 : member[static_cast<std::size_t>(season_day)]);
  return bands_of(run_, juvenile, middle, season_day);
}

}  // namespace soilclock::advice
