// SPDX-License-Identifier: MIT
#include "advice/site/soil_rules.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "emergence/member_run.hpp"
#include "thermal/crossing.hpp"

namespace soilclock::advice {

namespace {

/// What a rule looks at on the days of a range.
DailySeries<Temperature> rule_series(const SoilRule& rule, const DailySeries<Temperature>& daily,
                                     DayRange within, int days_needed) {
  return rule.statistic == SoilRule::Statistic::trailing_week
             ? thermal::trailing_mean(daily, within, days_needed)
             : daily.slice(within);
}

/// Whether the last known day of a range lies on the rule's side.
bool holds_at_last(const DailySeries<Temperature>& series, const thermal::CrossingRule& rule,
                   DayRange within) {
  for (Day day = within.end() - Days{1}; day >= within.begin(); day -= Days{1}) {
    const auto value = series.at(day);
    if (value) return rule.side == thermal::Side::at_or_below ? *value <= rule.level : *value >= rule.level;
  }
  return false;
}

SoilRuleStatus read_rule(const SoilRule& rule, const DailySeries<Temperature>& series, DayRange within) {
  const thermal::CrossingRule crossing{rule.temperature,
                                       rule.direction == SoilRule::Direction::falling
                                           ? thermal::Side::at_or_below
                                           : thermal::Side::at_or_above,
                                       rule.run_days};
  SoilRuleStatus reading;
  reading.id = rule.id;
  reading.title = rule.title;
  reading.meaning = rule.meaning;
  reading.level = rule.temperature;
  reading.falling = rule.direction == SoilRule::Direction::falling;
  reading.depth = rule.depth;
  reading.days = rule.run_days;
  reading.habit_of_last_run = rule.which == SoilRule::WhichRun::last;
  reading.rain_asked = rule.rain_of_seven_days;
  reading.first_run = thermal::first_run(series, crossing, within);
  if (!reading.first_run) return reading;
  reading.reversals = thermal::reversals(series, crossing, within);
  if (!holds_at_last(series, crossing, within)) return reading;
  const Day since = thermal::last_crossing(series, crossing, within).value_or(within.begin());
  // Since the last crossing the soil has stayed on the rule's side; a run of it must still be long enough.
  reading.last_run =
      thermal::first_run(series, crossing, {std::max(since, *reading.first_run), within.end()});
  return reading;
}

std::optional<Rain> rain_of_week_before(const SiteWeather& site) {
  Rain sum = Rain::from_mm(0.0);
  for (Day day = site.on - Days{7}; day < site.on; day += Days{1}) {
    const auto rain = site.daily.rain.at(day);
    if (!rain) return std::nullopt;
    sum = sum + *rain;
  }
  return sum;
}

/// The habits of a target on given soil, without the rain.
std::vector<SoilRuleStatus> read_rules(const Practice& practice, const std::string& target,
                                       const Season& season, const SiteWeather& site,
                                       const DailySeries<Temperature>& shallow,
                                       const DailySeries<Temperature>& at_5cm) {
  const emergence::MonthDay from =
      season.kind == SeasonKind::fall ? emergence::MonthDay{8, 1} : emergence::MonthDay{2, 1};
  const DayRange within{from.in(season), std::min(site.on, season.end())};
  std::vector<SoilRuleStatus> readings;
  for (const SoilRule& rule : practice.soil_rules) {
    if (std::find(rule.targets.begin(), rule.targets.end(), target) == rule.targets.end()) continue;
    const DailySeries<Temperature>& daily = rule.depth.cm() < 4.0 ? shallow : at_5cm;
    readings.push_back(
        read_rule(rule, rule_series(rule, daily, within, practice.weekly_means.temperature_days), within));
  }
  return readings;
}

std::string moved_day_words(const std::optional<Day>& day) { return day ? short_date(*day) : "no day yet"; }

}  // namespace

std::vector<SoilRuleStatus> read_soil_rules(const Practice& practice, const std::string& target,
                                            const Season& season, const SiteWeather& site,
                                            const SiteSoil& soil) {
  std::vector<SoilRuleStatus> readings =
      read_rules(practice, target, season, site, soil.shallow, soil.best_5cm);
  for (SoilRuleStatus& reading : readings) {
    if (reading.rain_asked) reading.rain_now = rain_of_week_before(site);
  }
  return readings;
}

std::vector<Remark> dates_moved_by_later_readings(const std::vector<SoilRuleStatus>& readings,
                                                  const Practice& practice, const std::string& target,
                                                  const Season& season, const SiteWeather& site,
                                                  const SiteSoil& soil) {
  std::vector<Remark> remarks;
  if (soil.at_5cm.readings.empty()) return remarks;
  const std::vector<SoilRuleStatus> then =
      read_rules(practice, target, season, site, soil.shallow, soil.known_then_5cm);
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const auto now = readings[i].habit_day();
    const auto before = then[i].habit_day();
    if (now == before) continue;
    remarks.push_back(
        {"soil-date-moved",
         fmt::format("Later probe readings move the day of \"{}\" from {} to {}: they say that the estimate "
                     "was off before them, too.",
                     readings[i].title, moved_day_words(before), moved_day_words(now))});
  }
  return remarks;
}

}  // namespace soilclock::advice
