// SPDX-License-Identifier: MIT
#include "advice/soil_rules.hpp"

#include <algorithm>

#include "emergence/member_run.hpp"
#include "thermal/crossing.hpp"

namespace soilclock::advice {

namespace {

DailySeries<Temperature> rule_series(const SoilRule& rule, const SiteSoil& soil) {
  const DailySeries<Temperature>& daily = rule.depth.cm() < 4.0 ? soil.shallow : soil.at_5cm.daily;
  return rule.statistic == SoilRule::Statistic::trailing_week ? thermal::trailing_mean(daily) : daily;
}

SoilRuleReading read_rule(const SoilRule& rule, const DailySeries<Temperature>& series, DayRange within) {
  const thermal::CrossingRule crossing{rule.temperature,
                                       rule.direction == SoilRule::Direction::falling
                                           ? thermal::Side::at_or_below
                                           : thermal::Side::at_or_above,
                                       rule.run_days};
  SoilRuleReading reading{rule.id, rule.title, rule.meaning, {}, {}, 0};
  reading.first_run = thermal::first_run(series, crossing, within);
  if (!reading.first_run) return reading;
  reading.reversals = thermal::reversals(series, crossing, within);
  const Day since = thermal::last_crossing(series, crossing, within).value_or(within.begin());
  // A run counts as holding when it reaches the last known day and is long enough.
  reading.last_run =
      thermal::first_run(series, crossing, {std::max(since, *reading.first_run), within.end()});
  return reading;
}

}  // namespace

std::vector<SoilRuleReading> read_soil_rules(const Practice& practice, const std::string& target,
                                             const Season& season, const SiteWeather& site,
                                             const SiteSoil& soil) {
  const emergence::MonthDay from =
      season.kind == SeasonKind::fall ? emergence::MonthDay{8, 1} : emergence::MonthDay{2, 1};
  const DayRange within{from.in(season), std::min(site.on, season.end())};
  std::vector<SoilRuleReading> readings;
  for (const SoilRule& rule : practice.soil_rules) {
    if (std::find(rule.targets.begin(), rule.targets.end(), target) == rule.targets.end()) continue;
    readings.push_back(read_rule(rule, rule_series(rule, soil), within));
  }
  return readings;
}

}  // namespace soilclock::advice
