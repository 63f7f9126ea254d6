// SPDX-License-Identifier: MIT
#include "advice/reach_answer.hpp"

#include <algorithm>

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

/// The week to treat: of the three kinds' best weeks the one with the highest low, in the kind that week
/// calls for.
std::optional<treatment::BestWeek> overall_best(const treatment::CautiousReach& reach,
                                                const treatment::ReachRules& rules,
                                                const treatment::ReachSettings& settings) {
  const treatment::BestWeek* highest = nullptr;
  for (const auto& best : reach.best) {
    if (best && (highest == nullptr || best->points.low > highest->points.low)) highest = &*best;
  }
  if (highest == nullptr) return std::nullopt;
  for (const treatment::WeekReach& week : reach.weeks) {
    if (week.week_of != highest->week_of) continue;
    const treatment::Kind called = kind_of(treatment::kind_of_week(week, rules, settings));
    const auto& of_kind = reach.best_of(called);
    // The kind's own best week is the answer when it is the same week; else the week with the highest low
    // stands.
    if (of_kind && of_kind->week_of == week.week_of) return of_kind;
  }
  return *highest;
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
  const Day first = std::max(monday_of(on), run.season.first);
  ReachAnswer answer;
  answer.reach =
      treatment::cautious_reach(members, {first, run.season.end()}, logged, rules, catalogue.reach);
  if (answer.reach.weeks.empty()) return std::nullopt;
  answer.this_week = treatment::kind_of_week(answer.reach.weeks.front(), rules, catalogue.reach);
  answer.best = overall_best(answer.reach, rules, catalogue.reach);
  return answer;
}

}  // namespace soilclock::advice
