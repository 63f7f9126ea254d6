// SPDX-License-Identifier: MIT
#include "advice/hindcast/past_seasons.hpp"

#include <algorithm>

#include "advice/answer/day_view.hpp"
#include "advice/answer/target_decision.hpp"
#include "advice/answer/windows.hpp"
#include "advice/ensemble/quantiles.hpp"
#include "advice/ensemble/season_ensemble.hpp"
#include "advice/hindcast/season_in_hindsight.hpp"

namespace soilclock::advice {

namespace {

std::vector<CurvePoint> weekly_points(const TargetRun& run, const MiddleCurve& middle) {
  std::vector<CurvePoint> points;
  const Season& season = run.season;
  const DayView members{run};
  for (Day monday = monday_of(season.first + Days{6}); monday < season.end(); monday += one_week) {
    const int day = season.day_of_season(monday);
    const DayBands bands = members.bands(middle, day);
    points.push_back({monday, bands.emerged.middle, bands.young.middle, bands.older.middle});
  }
  return points;
}

/// What the soil rules called for, as it stood in the last week that is worth a treatment: later the soil
/// turns again.
std::vector<RuleDay> rule_days(const SeenSeason& seen, const TargetRun& run, const Practice& practice,
                               Day last_useful) {
  SiteWeather then = seen.site;
  then.on = last_useful + one_week;
  std::vector<RuleDay> days;
  for (const SoilRuleStatus& rule :
       read_soil_rules(practice, run.job.target->code, run.season, then, seen.soil))
    days.push_back({rule.id, rule.habit_day()});
  return days;
}

SeasonSummary past_season(const SeenSeason& seen, const TargetRun& run, const Catalogue& catalogue,
                          const HindsightQuestion& question) {
  static const SiteLog nothing_noted;
  static const std::optional<treatment::TurfAssessment> not_looked_at;
  TargetAnswer answer;
  const MiddleCurve middle{run};
  answer.milestones = milestones_of(run, middle, catalogue.practice.decision);
  const DecisionInputs inputs{&run,
                              &seen.ensemble.runs,
                              &seen.ensemble.scenarios,
                              &catalogue,
                              &seen.site,
                              &nothing_noted,
                              question.turf_facts,
                              &not_looked_at,
                              question.plan,
                              question.resistant,
                              question.seed,
                              {}};
  const Day last_useful = last_useful_week(answer, inputs);
  const Decision decision = decide_in_hindsight(inputs, last_useful);
  SeasonSummary season;
  season.season_start = run.season.first;
  season.weekly = weekly_points(run, middle);
  for (const Milestone& milestone : answer.milestones)
    season.up.push_back({milestone.percent, milestone.date.middle});
  season.rule_days = rule_days(seen, run, catalogue.practice, last_useful);
  season.best_week = decision.best_week;
  season.best_kind = decision.kind;
  season.best_control = decision.control;
  return season;
}

/// The number of days of a season that stands in the middle; empty when it is "never" or nothing is there.
std::optional<int> middle_day(std::vector<std::optional<int>> days) {
  return day_band_of(std::move(days)).middle;
}

}  // namespace

std::vector<std::vector<SeasonSummary>> past_seasons(const SiteHistory& history, const Season& season,
                                                     std::span<const emergence::Target* const> targets,
                                                     const Catalogue& catalogue,
                                                     const HindsightQuestion& question) {
  std::vector<std::vector<SeasonSummary>> past(targets.size());
  const EnsembleDraws size{catalogue.practice.past_seasons.members, question.seed};
  const Day begin = weather::covered(history.daily).begin();
  for (Season over = season.previous(); over.first >= begin; over = over.previous()) {
    const auto seen = in_hindsight(history, over, targets, catalogue, size);
    if (!seen || complete_since(seen->site) > over.first) continue;
    for (const TargetRun& run : seen->ensemble.runs.targets) {
      const auto target = std::find(targets.begin(), targets.end(), run.job.target);
      past[static_cast<std::size_t>(target - targets.begin())].push_back(
          past_season(*seen, run, catalogue, question));
    }
  }
  for (std::vector<SeasonSummary>& seasons : past) std::reverse(seasons.begin(), seasons.end());
  return past;
}

std::optional<UsualSeason> usual_season(std::span<const SeasonSummary> past, const Season& season,
                                        std::span<const Milestone> milestones, const PastSeasonRules& rules) {
  if (past.size() < static_cast<std::size_t>(rules.fewest_for_usual)) return std::nullopt;
  std::vector<std::optional<int>> half_up_days;
  std::vector<std::optional<int>> best_days;
  for (const SeasonSummary& one : past) {
    const auto day_in = [&](Day day) { return static_cast<int>((day - one.season_start).count()); };
    const auto half_up = one.reached(50);
    half_up_days.push_back(half_up ? std::optional{day_in(*half_up)} : std::nullopt);
    if (one.best_week) best_days.emplace_back(day_in(*one.best_week));
  }
  UsualSeason usual;
  usual.seasons = static_cast<int>(past.size());
  usual.half_up_day = middle_day(std::move(half_up_days));
  if (usual.half_up_day) usual.half_up = season.first + Days{*usual.half_up_day};
  if (const auto best = middle_day(std::move(best_days)))
    usual.best_week = monday_of(season.first + Days{*best + 3});  // the nearest Monday of this season
  for (const Milestone& milestone : milestones) {
    if (milestone.percent == 50 && milestone.date.middle && usual.half_up)
      usual.days_against_usual = static_cast<int>((*milestone.date.middle - *usual.half_up).count());
  }
  return usual;
}

}  // namespace soilclock::advice
