// SPDX-License-Identifier: MIT
#include "advice/answer/windows.hpp"

#include <algorithm>

#include "advice/ensemble/quantiles.hpp"

namespace soilclock::advice {

namespace {

DateBand in_season(const Band<std::optional<int>>& days, const Season& season) {
  const auto day = [&](std::optional<int> d) {
    return d ? std::optional{season.first + Days{*d}} : std::nullopt;
  };
  return {day(days.low), day(days.middle), day(days.high)};
}

/// The end of hold: so many days before the first percent, not before the season.
DateBand hold_ends(const TargetRun& run, const PracticeThresholds& thresholds) {
  std::vector<std::optional<int>> days;
  for (const TargetMember& member : run.members) {
    auto day = member.curve.first_day_reaching(thresholds.hold_below.value());
    if (day) day = std::max(0, *day - thresholds.hold_look_ahead_days);
    days.push_back(day);
  }
  return in_season(day_band_of(std::move(days)), run.season);
}

}  // namespace

std::optional<treatment::Kind> kind_by_percent(const Band<double>& emerged, double expected,
                                               const PracticeThresholds& thresholds) {
  using treatment::Kind;
  if (emerged.middle >= thresholds.post_from.percent()) return Kind::post;
  if (expected < thresholds.hold_below.percent()) return std::nullopt;
  return emerged.middle <= thresholds.pre_up_to.percent() ? Kind::pre : Kind::pre_post;
}

DateBand date_reaching(const TargetRun& run, double share) {
  std::vector<std::optional<int>> days;
  for (const TargetMember& member : run.members) days.push_back(member.curve.first_day_reaching(share));
  return in_season(day_band_of(std::move(days)), run.season);
}

std::vector<Milestone> milestones_of(const TargetRun& run) {
  std::vector<Milestone> milestones;
  milestones.reserve(answered_shares.size());
  for (const int percent : answered_shares)
    milestones.push_back({percent, date_reaching(run, percent / 100.0)});
  return milestones;
}

DateBand main_wave_over(const TargetRun& run) {
  std::vector<std::optional<int>> days;
  for (const TargetMember& member : run.members) days.push_back(member.curve.main_wave_over);
  return in_season(day_band_of(std::move(days)), run.season);
}

std::vector<Window> windows_of(const TargetRun& run, const PracticeThresholds& thresholds) {
  const DateBand pre_closes = date_reaching(run, thresholds.pre_up_to.value());
  const DateBand post_opens = date_reaching(run, thresholds.post_from.value());
  return {{treatment::Kind::pre, hold_ends(run, thresholds), pre_closes},
          {treatment::Kind::pre_post, pre_closes, post_opens},
          {treatment::Kind::post, post_opens, {}}};
}

}  // namespace soilclock::advice
