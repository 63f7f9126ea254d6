// SPDX-License-Identifier: MIT
#include "advice/data/practice.hpp"

#include <set>
#include <utility>

#include "emergence/model_fields.hpp"

namespace soilclock::advice {

namespace {

PracticeGrounds read_grounds(const JsonObject& object) {
  const std::vector<std::string> words{"published", "derived", "common practice", "memory", "invented"};
  const std::string word = object.choice("basis", words);
  PracticeGrounds grounds;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == word) grounds.basis = static_cast<Basis>(i);
  }
  grounds.note = emergence::read_words(object, "note");
  for (const JsonObject& item : object.optional_objects("sources")) {
    grounds.sources.push_back({emergence::read_words(item, "source"), emergence::read_words(item, "where")});
    item.finish();
  }
  if (grounds.basis == Basis::published && grounds.sources.empty()) {
    object.refuse("sources", "a published number names no source", "at least one {source, where}");
  }
  return grounds;
}

void demand_unit(const JsonObject& object, const std::string& unit) {
  if (object.text("unit") != unit)
    object.refuse("unit", "this number must be written in another unit", "'" + unit + "'");
}

PracticeShare read_share(const JsonObject& parent, std::string_view key) {
  const JsonObject item = parent.object(key);
  PracticeShare share;
  share.value = Fraction::from_percent(item.number("value", 0.0, 100.0));
  demand_unit(item, "%");
  share.grounds = read_grounds(item);
  item.finish();
  return share;
}

struct PracticeDays {
  int days = 0;
  PracticeGrounds grounds;
};

PracticeDays read_days(const JsonObject& parent, std::string_view key, int least, int most) {
  const JsonObject item = parent.object(key);
  PracticeDays read;
  read.days = item.integer("value", least, most);
  demand_unit(item, "d");
  read.grounds = read_grounds(item);
  item.finish();
  return read;
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
  PracticeDays ahead = read_days(item, "hold_look_ahead", 1, 90);
  t.hold_look_ahead_days = ahead.days;
  t.hold_look_ahead_grounds = std::move(ahead.grounds);
  t.pre_up_to = read_share(item, "pre_up_to");
  t.pre_upper_band_up_to = read_share(item, "pre_upper_band_up_to");
  const JsonObject post = item.object("post_from");
  const double least = post.number("least", 0.0, 100.0);
  const double most = post.number("most", least, 100.0);
  t.post_from_least = Fraction::from_percent(least);
  t.post_from_most = Fraction::from_percent(most);
  t.post_from.value = Fraction::from_percent(post.number("value", least, most));
  demand_unit(post, "%");
  t.post_from.grounds = read_grounds(post);
  post.finish();
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
  PracticeDays holds = read_days(item, "holds_for", 1, 60);
  PracticeDays ended = read_days(item, "ended_by_hard_nights", 1, 14);
  item.finish();
  return {holds.days, std::move(holds.grounds), ended.days, std::move(ended.grounds)};
}

SoilRule read_soil_rule(const JsonObject& item) {
  SoilRule rule;
  rule.id = emergence::read_words(item, "id");
  rule.targets = item.texts("targets");
  rule.title = emergence::read_words(item, "title");
  const bool falling = item.choice("direction", {"falling", "rising"}) == "falling";
  rule.direction = falling ? SoilRule::Direction::falling : SoilRule::Direction::rising;
  rule.temperature = Temperature::from_celsius(emergence::read_quantity(item, "temperature", "C"));
  rule.depth = Depth::from_cm(emergence::read_quantity(item, "depth", "cm"));
  const bool daily = item.choice("statistic", {"daily mean", "trailing 7-day mean"}) == "daily mean";
  rule.statistic = daily ? SoilRule::Statistic::daily_mean : SoilRule::Statistic::trailing_week;
  rule.run_days = item.integer("run_days", 1, 30);
  const bool first = item.choice("which_run", {"first", "last"}) == "first";
  rule.which = first ? SoilRule::WhichRun::first : SoilRule::WhichRun::last;
  if (item.has("rain_of_seven_days")) {
    rule.rain_of_seven_days = Rain::from_mm(emergence::read_quantity(item, "rain_of_seven_days", "mm"));
  }
  rule.meaning = emergence::read_words(item, "meaning");
  rule.grounds = read_grounds(item);
  item.finish();
  return rule;
}

Practice read_all(const JsonObject& object) {
  Practice practice;
  (void)object.choice("format", {"soilclock-practice/1"});
  (void)emergence::read_words(object, "title");
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
    practice.cautions.push_back({emergence::read_words(item, "id"), emergence::read_words(item, "text"),
                                 item.optional_boolean("brief").value_or(false)});
    (void)item.choice("basis", {"common practice"});
    item.finish();
  }
  object.finish();
  return practice;
}

}  // namespace

Result<Practice> read_practice(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [](const JsonObject& object) { return read_all(object); });
}

}  // namespace soilclock::advice
