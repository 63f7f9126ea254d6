// SPDX-License-Identifier: MIT
#include "advice/answer/target_answer.hpp"

#include <algorithm>
#include <limits>

#include "advice/answer/reasons.hpp"
#include "advice/answer/windows.hpp"
#include "advice/ensemble/quantiles.hpp"

namespace soilclock::advice {

namespace {

constexpr int milestone_percents[] = {5, 10, 25, 50, 80, 90};

/// Values of all members at the end of one season day.
struct DayView {
  std::vector<double> emerged_percent;
  std::vector<double> juvenile_percent;  ///< members with plants up only
  emergence::StageShares mean_stages;
};

DayView view_of(const TargetRun& run, int season_day) {
  DayView view;
  double counted = 0.0;
  for (const TargetMember& member : run.members) {
    const double up = member.curve.at(season_day);
    view.emerged_percent.push_back(100.0 * up);
    const emergence::StageShares stages =
        emergence::stages_at(member.curve, member.age_clock, season_day, *run.job.growth, member.phyllochron);
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

std::vector<ModelShare> model_shares(const TargetRun& run, int season_day) {
  std::vector<ModelShare> shares;
  for (std::size_t m = 0; m < run.job.models.size(); ++m) {
    std::vector<double> percent;
    for (const TargetMember& member : run.members) {
      if (member.model == m) percent.push_back(100.0 * member.curve.at(season_day));
    }
    if (percent.empty()) continue;  // its weight or the counts left the model no member
    shares.push_back({run.job.models[m].model->id, run.job.models[m].model->title, run.job.models[m].weight,
                      band_of(std::move(percent)).middle});
  }
  return shares;
}

/// Where no single wave can be named the percent of a wave means nothing: only the state and what can still
/// be said.
TargetAnswer without_window(TargetAnswer answer) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  answer.decision.action = Action::no_single_week;
  answer.emerged_percent = {nan, nan, nan};
  answer.juvenile_percent = {nan, nan, nan};
  return answer;
}

}  // namespace

TargetAnswer answer_target(const TargetRun& run, const AnswerContext& context) {
  const PracticeThresholds& thresholds = context.practice->thresholds;
  const int yesterday = run.season.day_of_season(context.site->on) - 1;
  TargetAnswer answer;
  answer.target = run.job.target->code;
  answer.title = run.job.target->title;
  answer.season_start = run.season.first;
  const auto& rule = run.job.target->single_window;
  if (rule && context.climate != nullptr && single_window_share(*context.climate, *rule) <= 0.0) {
    answer = without_window(std::move(answer));
    explain(answer, run, context);
    return answer;
  }
  DayView now = view_of(run, yesterday);
  const DayView later = view_of(run, yesterday + thresholds.hold_look_ahead_days);
  answer.stages = now.mean_stages;
  answer.emerged_percent = band_of(std::move(now.emerged_percent));
  answer.juvenile_percent = band_of(std::move(now.juvenile_percent));
  answer.models = model_shares(run, yesterday);
  answer.by_percent =
      kind_by_percent(answer.emerged_percent, band_of(later.emerged_percent).middle, thresholds);
  for (const int percent : milestone_percents) {
    answer.milestones.push_back({percent, date_reaching(run, percent / 100.0)});
  }
  answer.main_wave_over = main_wave_over(run);
  answer.windows = windows_of(run, thresholds);
  explain(answer, run, context);
  return answer;
}

std::vector<SeasonDay> season_table(const TargetRun& run, const SeasonRuns& runs, const SiteWeather& site) {
  std::vector<SeasonDay> table;
  const DailySeries<Temperature> air = weather::air_mean(site.daily);
  for (int d = 0; d < run.season.length(); ++d) {
    const Day day = run.season.first + Days{d};
    DayView view = view_of(run, d);
    SeasonDay row;
    row.day = day;
    row.soil_5cm = Temperature::from_celsius(runs.soil_5cm_c[static_cast<std::size_t>(d)].middle);
    if (day < site.outlook_start) row.rain = site.daily.rain.at(day);
    row.emerged_percent = band_of(std::move(view.emerged_percent));
    row.juvenile_percent = band_of(std::move(view.juvenile_percent)).middle;
    row.origin = day >= site.outlook_start ? "outlook" : name(air.quality(day));
    table.push_back(row);
  }
  return table;
}

}  // namespace soilclock::advice
