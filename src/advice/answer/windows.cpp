// SPDX-License-Identifier: MIT
#include "advice/answer/windows.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "advice/ensemble/quantiles.hpp"

namespace soilclock::advice {

namespace {

DateBand in_season(const Band<std::optional<int>>& days, const Season& season) {
  const auto day = [&](std::optional<int> d) {
    return d ? std::optional{season.first + Days{*d}} : std::nullopt;
  };
  return {day(days.low), day(days.middle), day(days.high)};
}

/// The spread of the members around a middle that may lie outside it where models stand far apart.
DateBand around(std::vector<std::optional<int>> days, std::optional<int> middle, const Season& season) {
  Band<std::optional<int>> band = day_band_of(std::move(days));
  band.middle = middle;
  if (middle && band.low) band.low = std::min(*band.low, *middle);
  if (middle && band.high) band.high = std::max(*band.high, *middle);
  return in_season(band, season);
}

/// The end of hold: so many days before the first percent, not before the season.
DateBand hold_ends(const TargetRun& run, const MiddleCurve& middle, const PracticeThresholds& thresholds) {
  const auto earlier = [&](std::optional<int> day) {
    return day ? std::optional{std::max(0, *day - thresholds.hold_look_ahead_days)} : std::nullopt;
  };
  const double share = thresholds.hold_below.value();
  std::vector<std::optional<int>> days;
  for (const TargetMember& member : run.members)
    days.push_back(earlier(member.curve.first_day_reaching(share)));
  return around(std::move(days), earlier(middle.first_day_reaching(share)), run.season);
}

/// Models by the day their middle reaches a share, the earliest first; those of little weight have no say.
struct ModelDay {
  const MiddleCurve::ModelCurve* curve;
  double day;
};
std::vector<ModelDay> model_days(const MiddleCurve& middle, double share, double least_weight) {
  std::vector<ModelDay> days;
  for (const MiddleCurve::ModelCurve& curve : middle.models()) {
    const auto day = curve.day_reaching(share);
    if (day && curve.weight() >= least_weight) days.push_back({&curve, *day});
  }
  std::sort(days.begin(), days.end(), [](const ModelDay& a, const ModelDay& b) { return a.day < b.day; });
  return days;
}

ModelsDate date_of_side(std::span<const ModelDay> days, const TargetRun& run) {
  ModelsDate date;
  double sum = 0.0;
  for (const ModelDay& one : days) {
    sum += one.curve->weight() * one.day;
    date.weight += one.curve->weight();
    date.models.push_back(run.job.models[one.curve->model()].model->title);
  }
  date.date = run.season.first + Days{static_cast<int>(std::lround(sum / date.weight))};
  return date;
}

/// The two sides of the widest gap between models, where the sides stand further apart than the rules bear.
std::vector<ModelsDate> either_date(const TargetRun& run, const MiddleCurve& middle, double share,
                                    const DecisionRules& rules) {
  const std::vector<ModelDay> days = model_days(middle, share, rules.models_weight);
  if (days.size() < 2) return {};
  std::size_t cut = 1;
  for (std::size_t i = 1; i < days.size(); ++i) {
    if (days[i].day - days[i - 1].day > days[cut].day - days[cut - 1].day) cut = i;
  }
  const std::span<const ModelDay> all{days};
  std::vector<ModelsDate> sides{date_of_side(all.first(cut), run), date_of_side(all.subspan(cut), run)};
  if ((sides[1].date - sides[0].date).count() <= rules.models_days_apart) return {};
  return sides;
}

}  // namespace

std::optional<treatment::Kind> kind_by_percent(const Band<double>& emerged, double expected,
                                               const PracticeThresholds& thresholds) {
  using treatment::Kind;
  if (emerged.middle >= thresholds.post_from.percent()) return Kind::post;
  if (expected < thresholds.hold_below.percent()) return std::nullopt;
  return emerged.middle <= thresholds.pre_up_to.percent() ? Kind::pre : Kind::pre_post;
}

DateBand date_reaching(const TargetRun& run, const MiddleCurve& middle, double share) {
  std::vector<std::optional<int>> days;
  for (const TargetMember& member : run.members) days.push_back(member.curve.first_day_reaching(share));
  return around(std::move(days), middle.first_day_reaching(share), run.season);
}

std::vector<Milestone> milestones_of(const TargetRun& run, const MiddleCurve& middle,
                                     const DecisionRules& rules) {
  std::vector<Milestone> milestones;
  milestones.reserve(answered_shares.size());
  for (const int percent : answered_shares) {
    const double share = percent / 100.0;
    milestones.push_back(
        {percent, date_reaching(run, middle, share), either_date(run, middle, share, rules)});
  }
  return milestones;
}

DateBand main_wave_over(const TargetRun& run) {
  std::vector<std::optional<int>> days;
  for (const TargetMember& member : run.members) days.push_back(member.curve.main_wave_over);
  const auto middle = middle_over_models(run, days);
  return around(std::move(days), middle, run.season);
}

std::vector<Window> windows_of(const TargetRun& run, const MiddleCurve& middle,
                               const PracticeThresholds& thresholds, const DecisionRules& rules) {
  const double pre_up_to = thresholds.pre_up_to.value();
  const double post_from = thresholds.post_from.value();
  const DateBand pre_closes = date_reaching(run, middle, pre_up_to);
  const DateBand post_opens = date_reaching(run, middle, post_from);
  const auto closes_either = either_date(run, middle, pre_up_to, rules);
  const auto opens_either = either_date(run, middle, post_from, rules);
  return {{treatment::Kind::pre, hold_ends(run, middle, thresholds), pre_closes, {}, closes_either},
          {treatment::Kind::pre_post, pre_closes, post_opens, closes_either, opens_either},
          {treatment::Kind::post, post_opens, {}, opens_either, {}}};
}

}  // namespace soilclock::advice
