// SPDX-License-Identifier: MIT
#include "advice/answer/target_answer.hpp"

#include <algorithm>
#include <limits>

#include "advice/answer/day_view.hpp"
#include "advice/answer/reasons.hpp"
#include "advice/answer/windows.hpp"
#include "advice/ensemble/quantiles.hpp"

namespace soilclock::advice {

namespace {

ModelShare share_of(const emergence::EmergenceModel& model) {
  ModelShare share{model.id, model.title, 0.0, std::numeric_limits<double>::quiet_NaN(), {}, {}};
  for (const Citation& citation : model.sources) {
    if (std::find(share.sources.begin(), share.sources.end(), citation.source) == share.sources.end())
      share.sources.push_back(citation.source);
  }
  return share;
}

/// Those with members first, then those without weight.
std::vector<ModelShare> model_shares(const TargetRun& run, int season_day) {
  std::vector<ModelShare> shares;
  std::vector<ModelShare> without;
  for (std::size_t m = 0; m < run.job.models.size(); ++m) {
    std::vector<double> percent;
    for (const TargetMember& member : run.members) {
      if (member.model == m) percent.push_back(100.0 * member.curve.at(season_day));
    }
    ModelShare share = share_of(*run.job.models[m].model);
    if (percent.empty()) {
      share.why_no_weight = run.job.models[m].weight > 0.0 ? "its weight is too small for a member"
                                                           : "the counts of the field left it no member";
      without.push_back(std::move(share));
      continue;
    }
    share.weight = run.job.models[m].weight;
    share.percent = band_of(std::move(percent)).middle;
    shares.push_back(std::move(share));
  }
  for (const UnusedModel& unused : run.job.unused) {
    without.push_back(share_of(*unused.model));
    without.back().why_no_weight = unused.why;
  }
  shares.insert(shares.end(), without.begin(), without.end());
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
  const MiddleCurve middle{run};
  answer.stages = mean_stages(run, yesterday);
  const DayBands bands = bands_on(run, middle, yesterday);
  answer.emerged_percent = bands.emerged;
  answer.juvenile_percent = bands.juvenile;
  answer.models = model_shares(run, yesterday);
  answer.by_percent = kind_by_percent(
      answer.emerged_percent, 100.0 * middle.at(yesterday + thresholds.hold_look_ahead_days), thresholds);
  answer.milestones = milestones_of(run, middle, context.practice->decision);
  answer.main_wave_over = main_wave_over(run);
  answer.windows = windows_of(run, middle, thresholds, context.practice->decision);
  explain(answer, run, context);
  return answer;
}

}  // namespace soilclock::advice
