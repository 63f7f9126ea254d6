// SPDX-License-Identifier: MIT
#include "advice/reach_answer.hpp"

#include <algorithm>

#include "advice/quantiles.hpp"
#include "emergence/season_drivers.hpp"

namespace soilclock::advice {

namespace {

/// Share coming up on each day, from the share up at its end.
std::vector<double> daily_shares(const emergence::EmergenceCourse& course) {
  std::vector<double> shares;
  shares.reserve(course.up.size());
  double before = 0.0;
  for (const double up : course.up) {
    shares.push_back(up - before);
    before = up;
  }
  return shares;
}

treatment::Kind kind_of(const treatment::WeekVerdict& verdict) {
  switch (verdict.kind) {
    case treatment::WeekKind::pre:
    case treatment::WeekKind::second_pre:
      return treatment::Kind::pre;
    case treatment::WeekKind::post:
      return treatment::Kind::post;
    case treatment::WeekKind::pre_post:
    case treatment::WeekKind::hold:
      break;
  }
  return treatment::Kind::pre_post;
}

/// The week to treat: of the three kinds' best weeks the one with the highest low, shown in the kind that
/// week calls for.
std::optional<treatment::BestWeek> overall_best(const treatment::CautiousReach& reach,
                                                const treatment::ReachRules& rules,
                                                const treatment::ReachSettings& settings) {
  const treatment::BestWeek* highest = nullptr;
  for (const auto& best : reach.best) {
    if (best && (highest == nullptr || best->points.low > highest->points.low)) highest = &*best;
  }
  if (highest == nullptr) return std::nullopt;
  treatment::BestWeek best = *highest;
  for (const treatment::WeekReach& week : reach.weeks) {
    const treatment::WeekVerdict verdict = treatment::kind_of_week(week, rules, settings);
    if (week.week_of != best.week_of || verdict.kind == treatment::WeekKind::hold) continue;
    best.kind = kind_of(verdict);
    best.points = week.of(best.kind);
  }
  return best;
}

/// Weeks against fall species are looked at up to 1 March (north): later plants head and respond less.
/// Derived from two sprays that did better from January or February than from March (Johnson 1980, Weed Sci
/// 28:385-392) and from actives that failed from January to April (Flessner & McElroy 2011).
constexpr int last_treated_day = 253;

/// First season day from mid-January (north) on which green-up may begin; see turf_state.hpp for the rule.
constexpr int green_up_from_day = 208;

/// When warm-season turf breaks dormancy, as the members' soil has it (middle): from there on foliar
/// treatments hurt it, so weeks against fall species end there, and on 1 March at the latest.
Day green_up(const TargetRun& run, const SeasonRuns& runs, const treatment::TurfRules& rules) {
  std::vector<std::optional<int>> days;
  for (const TargetMember& member : run.members) {
    const std::vector<Temperature>& soil = runs.soil[member.scenario];
    std::optional<int> found;
    int warm = 0;
    for (std::size_t d = green_up_from_day; d < soil.size() && !found; ++d) {
      warm = soil[d] >= rules.breaking_soil ? warm + 1 : 0;
      if (warm == rules.run_days) found = static_cast<int>(d);
    }
    days.push_back(found);
  }
  const auto middle = day_band_of(std::move(days)).middle;
  return run.season.first + Days{std::min(middle.value_or(last_treated_day), last_treated_day)};
}

}  // namespace

std::optional<ReachAnswer> reach_answer(const TargetRun& run, const SeasonRuns& runs,
                                        const Scenarios& scenarios, const Catalogue& catalogue,
                                        std::span<const treatment::LoggedApplication> logged, Day on,
                                        std::uint64_t seed) {
  if (run.job.growth->clock == emergence::GrowthModel::Clock::days) return std::nullopt;
  const RandomField random{seed};
  std::vector<std::vector<double>> shares;
  for (const TargetMember& member : run.members) shares.push_back(daily_shares(member.course));
  std::vector<treatment::Member> members;
  for (std::size_t i = 0; i < run.members.size(); ++i) {
    const TargetMember& member = run.members[i];
    const CourseWeather& weather = scenarios.weather_of(static_cast<int>(member.scenario));
    treatment::Member drawn;
    drawn.cohorts = {run.season.first,
                     shares[i],
                     member.age_clock,
                     runs.soil[member.scenario],
                     std::span{weather.air_max}.subspan(static_cast<std::size_t>(emergence::lead_in_days)),
                     member.leaf_interval};
    drawn.draw = treatment::draw_parts(random, i, catalogue.reach);
    members.push_back(drawn);
  }
  const treatment::ReachRules rules{catalogue.kill_matrix, catalogue.residual};
  const Day first = std::max(on, run.season.first);
  // A fall species is not treated in green-up; once it has begun only this week is looked at.
  const Day end = run.season.kind == SeasonKind::fall
                      ? std::max(green_up(run, runs, catalogue.turf), first + Days{1})
                      : run.season.end();
  ReachAnswer answer;
  answer.reach = treatment::cautious_reach(members, {first, end}, logged, rules, catalogue.reach);
  if (answer.reach.weeks.empty()) return std::nullopt;
  answer.past_last_week = run.season.kind == SeasonKind::fall && end <= first + Days{1};
  answer.starts_this_week = answer.reach.weeks.front().week_of == monday_of(on);
  if (answer.starts_this_week) {
    answer.this_week = treatment::kind_of_week(answer.reach.weeks.front(), rules, catalogue.reach);
  }
  for (const treatment::WeekReach& week : answer.reach.weeks) {
    const treatment::WeekVerdict verdict = treatment::kind_of_week(week, rules, catalogue.reach);
    if (verdict.reason != treatment::KindReason::logged_residual_spent) continue;
    answer.second_due = week.week_of;
    break;
  }
  answer.best = overall_best(answer.reach, rules, catalogue.reach);
  return answer;
}

}  // namespace soilclock::advice
