// SPDX-License-Identifier: MIT
#include "obey/season_table.hpp"

#include <algorithm>

namespace soilclock::obey {

using treatment::Kind;

std::size_t SeasonTable::week_of(Day day) const {
  const Day monday = monday_of(day);
  const auto found = std::find_if(weeks_.begin(), weeks_.end(),
                                  [&](const advice::TreatmentWeek& week) { return week.week_of >= monday; });
  return static_cast<std::size_t>(found - weeks_.begin());
}

double SeasonTable::net(const Choice& choice) const {
  const double extra = choice.kind == Kind::pre_post ? part_worth_ : 0.0;
  for (std::size_t week = choice.week; week < weeks_.size(); ++week) {
    if (const auto score = weeks_[week].score(choice.kind)) return *score - extra;
  }
  return 0.0;
}

Choice SeasonTable::best() const {
  Choice best;
  double most = 0.0;
  for (std::size_t week = 0; week < useful_; ++week) {
    for (const Kind kind : treatment::all_kinds) {
      if (!weeks_[week].of(kind).allowed) continue;
      const double points = net({kind, week});
      if (points <= most) continue;
      most = points;
      best = {kind, week};
    }
  }
  return best;
}

Season season_beginning(int year, const TargetSettings& target, const advice::Catalogue& catalogue) {
  const SeasonKind kind = catalogue.targets.at(target.code).season;
  // August lies in the season that begins in its year for either kind.
  return season_of(make_day(year, 8, 1), kind, Hemisphere::north);
}

std::variant<PastSeason, NotJudged> judge_season(const Asker& asker, const Station& station, int year,
                                                 const TargetSettings& target) {
  const Season season = season_beginning(year, target, asker.catalogue());
  const Day known_to = station.daily.air_min.days().end();
  const Day on = std::min(target.judged_on.in(season), known_to);
  const advice::SiteAnswer answer = asker.with_tables(on);
  if (answer.targets.empty() || answer.targets.front().refusal) return NotJudged::refused;
  const advice::TargetAnswer& found = answer.targets.front();
  if (found.decision.action == advice::Action::no_single_week) return NotJudged::no_single_week;
  if (found.season_start != season.first) return NotJudged::refused;
  PastSeason past{year, {}, {}, *found.last_useful_week >= known_to};
  for (const advice::ComparedPlan& plan : found.compared_plans) {
    const auto useful = std::count_if(
        plan.passed.begin(), plan.passed.end(),
        [&](const advice::TreatmentWeek& week) { return week.week_of <= *found.last_useful_week; });
    past.tables.emplace_back(plan.passed, static_cast<std::size_t>(useful),
                             asker.catalogue().practice.decision.part_worth);
  }
  for (const advice::SoilRuleStatus& reading : found.soil_rules) {
    if (reading.id == target.soil_rule) past.soil_rule_run = reading.first_run;
  }
  return past;
}

}  // namespace soilclock::obey
