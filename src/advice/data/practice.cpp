// SPDX-License-Identifier: MIT
#include "advice/data/practice.hpp"

#include <cmath>
#include <set>
#include <utility>

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::advice {

namespace {

PracticeShare read_share(const JsonObject& parent, std::string_view key, Limits percent = {0.0, 100.0}) {
  Parameter read = read_parameter(parent, key, "%", percent);
  return {Fraction::from_percent(read.value), std::move(read.grounds)};
}

struct PracticeDays {
  int days = 0;
  Grounds grounds;
};

PracticeDays read_days(const JsonObject& parent, std::string_view key, Limits days) {
  Parameter read = read_parameter(parent, key, "d", days);
  if (read.value != std::floor(read.value)) parent.object(key).refuse("value", "this must be a whole number");
  return {static_cast<int>(read.value), std::move(read.grounds)};
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
  PracticeDays ahead = read_days(item, "hold_look_ahead", {1, 90});
  t.hold_look_ahead_days = ahead.days;
  t.hold_look_ahead_grounds = std::move(ahead.grounds);
  t.pre_up_to = read_share(item, "pre_up_to");
  t.pre_upper_band_up_to = read_share(item, "pre_upper_band_up_to");
  t.post_from_least = read_share(item, "post_from_least").value;
  t.post_from_most = read_share(item, "post_from_most").value;
  t.post_from = read_share(item, "post_from", {t.post_from_least.percent(), t.post_from_most.percent()});
  t.second_pre_from = read_share(item, "second_pre_from");
  t.second_pre_firm_from = read_share(item, "second_pre_firm_from");
  demand_order(item, "hold_below", t.hold_below.value, "pre_up_to", t.pre_up_to.value);
  demand_order(item, "pre_up_to", t.pre_up_to.value, "pre_upper_band_up_to", t.pre_upper_band_up_to.value);
  demand_order(item, "pre_up_to", t.pre_up_to.value, "post_from", t.post_from.value);
  demand_order(item, "second_pre_from", t.second_pre_from.value, "second_pre_firm_from",
               t.second_pre_firm_from.value);
  item.finish();
  return t;
}

NotedTurf read_noted_turf(const JsonObject& item) {
  PracticeDays holds = read_days(item, "holds_for", {1, 60});
  PracticeDays ended = read_days(item, "ended_by_hard_nights", {1, 14});
  item.finish();
  return {holds.days, std::move(holds.grounds), ended.days, std::move(ended.grounds)};
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
  const JsonObject resistance = object.object("resistance");
  practice.resistant_by_test = read_share(resistance, "found_by_test");
  resistance.finish();
  practice.decision = read_decision_rules(object.object("decision"));
  practice.noted_turf = read_noted_turf(object.object("noted_turf"));
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
