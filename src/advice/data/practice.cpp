// SPDX-License-Identifier: MIT
#include "advice/data/practice.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::advice {

namespace {

Fraction read_share(const JsonObject& parent, std::string_view key, Limits percent = {0.0, 100.0}) {
  return Fraction::from_percent(read_parameter(parent, key, "%", percent).value);
}

int read_days(const JsonObject& parent, std::string_view key, Limits limits) {
  return read_whole(parent, key, "d", limits);
}

void demand_order(const JsonObject& item, std::string_view lower, Fraction low, std::string_view upper,
                  Fraction high) {
  if (low <= high) return;
  item.object(upper).refuse("value", "this threshold is below " + std::string{lower}, {},
                            "correct one of the two");
}

PracticeThresholds read_thresholds(const JsonObject& item) {
  PracticeThresholds t;
  t.hold_below = read_share(item, "hold_below");
  t.hold_look_ahead_days = read_days(item, "hold_look_ahead", {1, 90});
  t.pre_up_to = read_share(item, "pre_up_to");
  t.pre_upper_band_up_to = read_share(item, "pre_upper_band_up_to");
  t.post_from = read_share(
      item, "post_from",
      {read_share(item, "post_from_least").percent(), read_share(item, "post_from_most").percent()});
  t.second_pre_from = read_share(item, "second_pre_from");
  t.second_pre_firm_from = read_share(item, "second_pre_firm_from");
  t.main_wave_over = read_share(item, "main_wave_over");
  demand_order(item, "hold_below", t.hold_below, "pre_up_to", t.pre_up_to);
  demand_order(item, "pre_up_to", t.pre_up_to, "pre_upper_band_up_to", t.pre_upper_band_up_to);
  demand_order(item, "pre_up_to", t.pre_up_to, "post_from", t.post_from);
  demand_order(item, "second_pre_from", t.second_pre_from, "second_pre_firm_from", t.second_pre_firm_from);
  item.finish();
  return t;
}

WeeklyMeanRules read_weekly_means(const JsonObject& item) {
  const WeeklyMeanRules rules{read_days(item, "temperature_days", {1, 7}),
                              read_days(item, "rain_days", {1, 7})};
  item.finish();
  return rules;
}

NotedTurf read_noted_turf(const JsonObject& item) {
  const NotedTurf noted{read_days(item, "holds_for", {1, 60}),
                        read_days(item, "ended_by_hard_nights", {1, 14})};
  item.finish();
  return noted;
}

DataAgeRules read_data_age(const JsonObject& item) {
  const DataAgeRules rules{read_days(item, "oldest", {1, 60}), read_days(item, "mention_from", {1, 60})};
  item.finish();
  return rules;
}

AnsweredTo read_answered_to(const JsonObject& item) {
  const AnsweredTo days{read_days(item, "fall", {200, 366}), read_days(item, "summer", {200, 366})};
  item.finish();
  return days;
}

PastSeasonRules read_past_seasons(const JsonObject& item) {
  const PastSeasonRules rules{read_whole(item, "members", "members", {20, 1000}),
                              read_whole(item, "fewest_for_usual", "seasons", {1, 30})};
  item.finish();
  return rules;
}

ComparisonRules read_comparison(const JsonObject& item) {
  const auto shift = [&](std::string_view key) {
    return TemperatureDelta::from_kelvin(read_parameter(item, key, "K", {0.1, 10.0}).value);
  };
  ComparisonRules rules;
  rules.yardstick_percent = read_whole(item, "yardstick", "%", {5.0, 90.0});
  if (std::find(answered_shares.begin(), answered_shares.end(), rules.yardstick_percent) ==
      answered_shares.end()) {
    item.object("yardstick")
        .refuse("value", "answers do not name the day of this share", "5, 10, 25, 50, 80 or 90");
  }
  rules.fall_calendar = read_month_day(item, "fall_calendar");
  rules.summer_calendar = read_month_day(item, "summer_calendar");
  rules.fall_asked_on = read_month_day(item, "fall_asked_on");
  rules.summer_asked_on = read_month_day(item, "summer_asked_on");
  rules.small_soil_shift = shift("small_soil_shift");
  rules.large_soil_shift = shift("large_soil_shift");
  rules.missing_days = read_days(item, "missing", {1, 30});
  rules.dry_days = read_days(item, "dry", {1, 60});
  rules.frost_after_days = read_days(item, "frost_after", {0, 14});
  rules.frost_low = Temperature::from_celsius(read_parameter(item, "frost_low", "C", {-20.0, 0.0}).value);
  rules.lesson_base = Temperature::from_celsius(read_parameter(item, "lesson_base", "C", {0.0, 25.0}).value);
  item.finish();
  return rules;
}

ChangeRules read_changes(const JsonObject& item) {
  const ChangeRules rules{read_days(item, "best_weeks_moved", {0, 60})};
  item.finish();
  return rules;
}

SoilRule read_soil_rule(const JsonObject& item) {
  SoilRule rule;
  rule.grounds = read_file_grounds(item);
  const auto number = [&](std::string_view key, std::string_view unit) {
    return read_parameter(item, key, unit, {}, rule.grounds.basis).value;
  };
  rule.id = read_words(item, "id");
  rule.targets = item.texts("targets");
  rule.title = read_words(item, "title");
  const bool falling = item.choice("direction", {"falling", "rising"}) == "falling";
  rule.direction = falling ? SoilRule::Direction::falling : SoilRule::Direction::rising;
  rule.temperature = Temperature::from_celsius(number("temperature", "C"));
  rule.depth = Depth::from_cm(number("depth", "cm"));
  const bool daily = item.choice("statistic", {"daily mean", "trailing 7-day mean"}) == "daily mean";
  rule.statistic = daily ? SoilRule::Statistic::daily_mean : SoilRule::Statistic::trailing_week;
  rule.run_days = item.integer("run_days", 1, 30);
  const bool first = item.choice("which_run", {"first", "last"}) == "first";
  rule.which = first ? SoilRule::WhichRun::first : SoilRule::WhichRun::last;
  if (item.has("rain_of_seven_days")) {
    rule.rain_of_seven_days = Rain::from_mm(number("rain_of_seven_days", "mm"));
  }
  rule.meaning = read_words(item, "meaning");
  item.finish();
  return rule;
}

Practice read_all(const JsonObject& object, const std::string& file) {
  Practice practice;
  (void)read_head(object, file, "soilclock-practice/1");
  practice.thresholds = read_thresholds(object.object("thresholds"));
  practice.weekly_means = read_weekly_means(object.object("weekly_means"));
  const JsonObject resistance = object.object("resistance");
  practice.resistant_by_test = read_share(resistance, "found_by_test");
  resistance.finish();
  practice.decision = read_decision_rules(object.object("decision"));
  practice.noted_turf = read_noted_turf(object.object("noted_turf"));
  practice.data_age = read_data_age(object.object("data_age"));
  practice.answered_to = read_answered_to(object.object("season_answered_to"));
  practice.past_seasons = read_past_seasons(object.object("past_seasons"));
  practice.comparison = read_comparison(object.object("comparison"));
  practice.changes = read_changes(object.object("changes"));
  practice.hindcast = read_hindcast_rules(object.object("hindcast"));
  std::set<std::string> ids;
  for (const JsonObject& item : object.objects("soil_rules")) {
    practice.soil_rules.push_back(read_soil_rule(item));
    if (!ids.insert(practice.soil_rules.back().id).second) item.refuse("id", "this id is used twice");
  }
  for (const JsonObject& item : object.objects("cautions")) {
    practice.cautions.push_back(
        {read_words(item, "id"), read_words(item, "text"), item.optional_boolean("brief").value_or(false)});
    (void)item.choice("basis", {"common practice"});
    item.finish();
  }
  object.finish();
  return practice;
}

}  // namespace

Result<Practice> read_practice(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request,
                   [&](const JsonObject& object) { return read_all(object, file); });
}

}  // namespace soilclock::advice
