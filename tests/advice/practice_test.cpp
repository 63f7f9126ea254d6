// SPDX-License-Identifier: MIT
#include "advice/data/practice.hpp"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "support/source_texts.hpp"

namespace soilclock::advice {

namespace {

const std::string file = "config/practice.json";

Practice shipped_practice() {
  const auto practice = read_practice(tests::source_text(file), file);
  if (!practice) FAIL(describe(practice.error()));
  return *practice;
}

const SoilRule& rule(const Practice& practice, const std::string& id) {
  for (const SoilRule& found : practice.soil_rules) {
    if (found.id == id) return found;
  }
  FAIL("no rule " << id);
  return practice.soil_rules.front();
}

}  // namespace

TEST_CASE("the shipped thresholds are the working ones") {
  const PracticeThresholds t = shipped_practice().thresholds;
  CHECK(t.hold_below.percent() == Approx(1));
  CHECK(t.hold_look_ahead_days == 21);
  CHECK(t.pre_up_to.percent() == Approx(5));
  CHECK(t.pre_upper_band_up_to.percent() == Approx(10));
  CHECK(t.post_from.percent() == Approx(80));
}

TEST_CASE("a noted turf state stands for two weeks or until one hard night") {
  const NotedTurf noted = shipped_practice().noted_turf;
  CHECK(noted.holds_days == 14);
  CHECK(noted.ended_by_hard_nights == 1);
}

TEST_CASE("weather may be ten days old, and a season is answered for to mid-May or mid-November") {
  const Practice practice = shipped_practice();
  CHECK(practice.data_age.oldest_days == 10);
  CHECK(practice.data_age.mention_from_days == 2);
  const Season fall = season_of(make_day(2026, 10, 15), SeasonKind::fall, Hemisphere::north);
  const Season summer = season_of(make_day(2026, 5, 1), SeasonKind::summer, Hemisphere::north);
  CHECK(fall.first + Days{practice.answered_to.fall} == make_day(2027, 5, 15));
  CHECK(summer.first + Days{practice.answered_to.summer} == make_day(2026, 11, 15));
}

TEST_CASE("the shipped numbers of the decision hang together") {
  const DecisionRules rules = shipped_practice().decision;
  // A part, a wait or a treatment at all must bring the same; the trial of the rule was made with five
  // points.
  CHECK(rules.part_worth == 5);
  CHECK(rules.adding_part_worth == rules.part_worth);
  CHECK(rules.good_through_best == rules.part_worth);
  CHECK(rules.late == rules.part_worth);
  // Either side of the choice of an extra part.
  CHECK(rules.close_call_least == rules.part_worth - 1);
  CHECK(rules.close_call_most == rules.part_worth + 1);
  CHECK(rules.range_bridge == 2);
  CHECK(rules.range_within < rules.good_through_kind);
  CHECK(rules.good_through_kind == rules.hurry);
  CHECK(rules.hurry == 1);
  CHECK(rules.summer_days_after_90 == 28);
  CHECK(rules.fall_last_day == emergence::MonthDay{3, 1});
  CHECK(rules.gated_share == Approx(0.5));
  CHECK(rules.hump_share == Approx(0.25));
  CHECK(rules.models_weight == Approx(0.2));
  CHECK(rules.look_from_days < rules.look_to_days);
  CHECK(rules.short_residual_weeks < rules.long_residual_weeks);
}

TEST_CASE("soil rules are the round Fahrenheit numbers of the trade and the published crossing") {
  // Extension notes (common practice): 70 F in fall, 50 and 55 F in spring, 60-65 F for goosegrass.
  // Taylor et al. 2021 (abstract): 18.9 C and 12.7 mm in seven days. Fidanza et al. 1996 (abstract): 22.8 C
  // at 2.5 cm.
  const Practice practice = shipped_practice();
  CHECK(rule(practice, "fall-70f").temperature.fahrenheit() == Approx(70).margin(0.1));
  CHECK(rule(practice, "fall-70f").which == SoilRule::WhichRun::last);
  CHECK(rule(practice, "fall-70f").run_days == 5);
  CHECK(rule(practice, "fall-67f").temperature.fahrenheit() == Approx(67).margin(0.1));
  CHECK(rule(practice, "spring-50f").temperature.fahrenheit() == Approx(50).margin(0.1));
  CHECK(rule(practice, "spring-55f").temperature.fahrenheit() == Approx(55).margin(0.1));
  CHECK(rule(practice, "spring-60f").temperature.fahrenheit() == Approx(60).margin(0.1));
  CHECK(rule(practice, "spring-65f").temperature.fahrenheit() == Approx(65).margin(0.1));
  CHECK(rule(practice, "fall-66f").temperature.celsius() == 18.9);
  CHECK(rule(practice, "fall-66f").rain_of_seven_days->inches() == Approx(0.5));
  CHECK(rule(practice, "fall-66f").grounds.basis == Basis::published);
  CHECK(rule(practice, "spring-73f").depth == Depth::from_cm(2.5));
}

TEST_CASE(
    "the cautions cover label, license, water, drift, re-entry, dormancy, scouting, resistance, records and "
    "data") {
  const Practice practice = shipped_practice();
  REQUIRE(practice.cautions.size() == 11);
  CHECK(practice.cautions.front().id == "in-short");
  for (const Caution& caution : practice.cautions) {
    INFO(caution.id);
    CHECK(caution.text.size() > 40);
    CHECK(caution.text.size() < 200);
    CHECK(caution.text.ends_with("."));
  }
}

TEST_CASE("a practice file with one thing wrong is refused at its place") {
  struct WrongThing {
    std::string what, part, by, place;
  };
  const std::vector<WrongThing> things{
      {"misspelled threshold", "\"pre_up_to\"", "\"pre_upto\"", "/thresholds/pre_up_to"},
      {"unknown key", "\"title\": \"Working", "\"color\": \"red\", \"title\": \"Working", "/color"},
      {"another unit", "\"value\": 5,\n      \"unit\": \"%\"", "\"value\": 5,\n      \"unit\": \"share\"",
       "/thresholds/pre_up_to/unit"},
      {"post outside what may be set", "\"value\": 80", "\"value\": 60", "/thresholds/post_from/value"},
      {"post above what may be set", "\"value\": 80", "\"value\": 91", "/thresholds/post_from/value"},
      {"pre band below pre", "\"pre_upper_band_up_to\": {\n      \"value\": 10",
       "\"pre_upper_band_up_to\": {\n      \"value\": 4", "/thresholds/pre_upper_band_up_to/value"},
      {"more than all", "\"value\": 80,", "\"value\": 180,", "/thresholds/post_from/value"},
      {"number without note", "\"note\": \"three weeks", "\"remark\": \"three weeks",
       "/thresholds/hold_look_ahead/note"},
      {"number without basis", "\"basis\": \"derived\"", "\"basis\": \"felt\"",
       "/thresholds/hold_below/basis"},
      {"published without source", "\"sources\": [{\"source\": \"taylor-2021\"",
       "\"sourced\": [{\"source\": \"taylor-2021\"", "/soil_rules/1/sources"},
      {"rule in Fahrenheit", "{\"value\": 21.1, \"unit\": \"C\"}", "{\"value\": 70, \"unit\": \"F\"}",
       "/soil_rules/0/temperature/unit"},
      {"run of no days", "\"run_days\": 5", "\"run_days\": 0", "/soil_rules/0/run_days"},
      {"a week of eight days", "\"temperature_days\": {\"value\": 5", "\"temperature_days\": {\"value\": 8",
       "/weekly_means/temperature_days/value"},
      {"half a season", "\"compared_least\": {\"value\": 5", "\"compared_least\": {\"value\": 5.5",
       "/hindcast/compared_least/value"},
      {"misspelled key of the pooling", "\"over\"", "\"ovr\"", "/hindcast/past_dates_pooled/over"},
      {"misspelled decision key", "\"part_worth\"", "\"part_wort\"", "/decision/part_worth"},
      {"decision key too many", "\"decision\": {", "\"decision\": {\"color\": 1,", "/decision/color"},
      {"points in percent", "\"value\": 5, \"unit\": \"points\"", "\"value\": 5, \"unit\": \"%\"",
       "/decision/part_worth/unit"},
      {"points below none", "\"value\": 5, \"unit\": \"points\"", "\"value\": -5, \"unit\": \"points\"",
       "/decision/part_worth/value"},
      {"judgment without a note", "\"note\": \"judgment, tried", "\"hint\": \"judgment, tried",
       "/decision/part_worth/note"},
      {"ends of the range outside the bridged dips", "\"range_within\": {\"value\": 0.9",
       "\"range_within\": {\"value\": 3", "/decision/range_within/value"},
      {"close calls from above", "\"close_call_least\": {\"value\": 4", "\"close_call_least\": {\"value\": 7",
       "/decision/close_call_least/value"},
      {"a day that no month has", "\"month\": 3, \"day\": 1", "\"month\": 13, \"day\": 1",
       "/decision/fall_last_day/month"},
      {"a share of more than all", "\"gated_share\": {\"value\": 50", "\"gated_share\": {\"value\": 150",
       "/decision/gated_share/value"},
      {"two rules of one name", "\"id\": \"fall-66f\"", "\"id\": \"fall-70f\"", "/soil_rules/1/id"},
      {"empty caution",
       "\"The label of the product you hold is the law; where it differs from this page, the label is "
       "right.\"",
       "\" \"", "/cautions/1/text"},
      {"no word on noted turf", "\"noted_turf\"", "\"noted_turfs\"", "/noted_turf"},
      {"noted turf that never holds", "\"holds_for\": {\n      \"value\": 14",
       "\"holds_for\": {\n      \"value\": 0", "/noted_turf/holds_for/value"},
      {"noted turf in weeks", "\"value\": 14,\n      \"unit\": \"d\"",
       "\"value\": 2,\n      \"unit\": \"wk\"", "/noted_turf/holds_for/unit"},
      {"noted turf without the freeze", "\"ended_by_hard_nights\"", "\"ended_by_frost\"",
       "/noted_turf/ended_by_hard_nights"},
      {"a freeze without grounds", "\"note\": \"judgment: one night", "\"remark\": \"one night",
       "/noted_turf/ended_by_hard_nights/note"},
      {"weather that may be too old", "\"oldest\": {\"value\": 10", "\"oldest\": {\"value\": 0",
       "/data_age/oldest/value"},
      {"a season that ends at once", "\"fall\": {\"value\": 328", "\"fall\": {\"value\": 3",
       "/season_answered_to/fall/value"},
      {"another format", "soilclock-practice/1", "soilclock-practice/2", "/format"},
  };
  for (const WrongThing& thing : things) {
    INFO(thing.what);
    const auto result = read_practice(tests::exchanged(tests::source_text(file), thing.part, thing.by), file);
    REQUIRE_FALSE(result);
    INFO(describe(result.error()));
    CHECK(result.error().family == Family::request);
    CHECK(result.error().where.json_pointer == thing.place);
  }
}

}  // namespace soilclock::advice
