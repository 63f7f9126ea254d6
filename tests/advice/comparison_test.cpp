// SPDX-License-Identifier: MIT
// Seasons, calls and what-ifs side by side, from rows and records whose dates are known.
#include "advice/comparison/comparison.hpp"

#include <catch2/catch.hpp>

#include "advice/comparison/season_dates.hpp"
#include "advice/comparison/what_ifs.hpp"
#include "made_up_season.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

/// A season whose first five in a hundred were up on a day of September, with half up 30 days later.
SeasonRow season_in(int year, unsigned first_up, std::optional<unsigned> rule, bool open = false) {
  SeasonRow row{std::to_string(year), open, {}};
  row.season.season_start = make_day(year, 6, 21);
  const Day day = make_day(year, 9, first_up);
  row.season.up = {{5, day}, {50, day + Days{30}}};
  row.season.rule_days = {{"fall-70f", rule ? std::optional{make_day(year, 9, *rule)} : std::nullopt}};
  row.season.best_week = monday_of(day + Days{30});
  return row;
}

std::vector<SeasonRow> four_seasons() {
  return {season_in(2021, 4, 10), season_in(2022, 20, {}), season_in(2023, 12, 12),
          season_in(2024, 15, 14, true)};
}

std::vector<SoilRuleStatus> one_rule() {
  SoilRuleStatus rule;
  rule.id = "fall-70f";
  rule.title = "Below 70 F";
  return {rule};
}

const Season fall_2024 = season_of(make_day(2024, 10, 1), SeasonKind::fall, Hemisphere::north);

const SeasonDate& date_of(const std::vector<SeasonDate>& dates, const std::string& id) {
  for (const SeasonDate& date : dates) {
    if (date.id == id) return date;
  }
  throw std::runtime_error{"no date " + id};
}

}  // namespace

TEST_CASE("earliest, middle and latest are of the past seasons, moved into this one") {
  const auto dates = season_dates(four_seasons(), one_rule());
  const SeasonDate& first_up = date_of(dates, "5-up");
  CHECK(first_up.past.size() == 3);
  CHECK(first_up.earliest == make_day(2024, 9, 4));
  CHECK(first_up.middle == make_day(2024, 9, 12));
  CHECK(first_up.latest == make_day(2024, 9, 20));
  CHECK(first_up.days_apart == 16);
  CHECK(first_up.this_season == make_day(2024, 9, 15));
  // A season without the rule's day counts as "never" for the middle and not at all for the ends.
  const SeasonDate& rule = date_of(dates, "fall-70f");
  CHECK(rule.earliest == make_day(2024, 9, 10));
  CHECK(rule.latest == make_day(2024, 9, 12));
  CHECK(rule.middle == make_day(2024, 9, 12));
  CHECK(rule.title == "Below 70 F");
  CHECK(dates.back().id == "best-week");
}

TEST_CASE("a calendar date and a soil rule are held against the day the first plants were up") {
  const auto& rules = shipped_catalogue().practice.comparison;
  const auto calls = call_misses(four_seasons(), one_rule(), fall_2024, rules);
  REQUIRE(calls.size() == 2);
  const CallMisses& calendar = calls.front();
  CHECK(calendar.title == "the calendar, Sep 15");
  CHECK(calendar.days_late == std::vector<std::optional<int>>{11, -5, 3});
  CHECK(calendar.late_seasons == 2);
  CHECK(calendar.mean_miss.value() == Approx((11 + 5 + 3) / 3.0));
  CHECK(calendar.this_season == make_day(2024, 9, 15));
  const CallMisses& soil = calls.back();
  CHECK(soil.days_late == std::vector<std::optional<int>>{6, std::nullopt, 0});
  CHECK(soil.seasons == 2);
  CHECK(soil.late_seasons == 1);
}

TEST_CASE("in the south the calendar date is half a year away") {
  SeasonRow past{"2023", false, {}};
  past.season.season_start = make_day(2023, 12, 21);
  past.season.up = {{5, make_day(2024, 3, 20)}};
  SeasonRow now = past;
  now.open = true;
  const auto calls =
      call_misses({past, now}, {}, season_of(make_day(2025, 4, 1), SeasonKind::fall, Hemisphere::south),
                  shipped_catalogue().practice.comparison);
  CHECK(calls.front().days_late == std::vector<std::optional<int>>{-5});
}

TEST_CASE("the finding says how often the calendar was late, or how early it always was") {
  const auto worded = [](const std::vector<SeasonRow>& rows) {
    TargetComparison comparison;
    comparison.title = "Annual bluegrass";
    comparison.yardstick_percent = 5;
    comparison.seasons = rows;
    comparison.dates = season_dates(rows, one_rule());
    comparison.calls = call_misses(rows, one_rule(), fall_2024, shipped_catalogue().practice.comparison);
    word_finding(comparison, make_day(2024, 9, 15), "1.8 F");
    return comparison;
  };
  const TargetComparison late = worded(four_seasons());
  CHECK(late.finding == "By the models, Sep 15 was late for annual bluegrass in 2 of 3 seasons");
  CHECK(late.range.find("as early as Sep 4 and as late as Sep 20: 16 days apart") != std::string::npos);
  CHECK(late.what_if_finding.empty());
  const TargetComparison early =
      worded({season_in(2022, 20, {}), season_in(2023, 28, {}), four_seasons().back()});
  CHECK(early.finding ==
        "By the models, Sep 15 was 5 to 13 days before the first annual bluegrass in 2 seasons");
  const TargetComparison none = worded({four_seasons().back()});
  CHECK(none.finding == "The record holds no past season of annual bluegrass to compare with");
}

TEST_CASE("what-ifs: warmer soil brings the seedlings later, cooler soil earlier, nothing else changes") {
  const Day on = make_day(2020, 10, 20);
  const SiteHistory history = history_of(site_with(wavy_record(on), on));
  const TurfFacts turf_facts;
  const treatment::TankPlan plan;
  const treatment::ResistantShares resistant;
  const WhatIfQuestion question{
      &shipped_catalogue().targets.at("POAAN"), &turf_facts, &plan, &resistant, {200, 1}};
  const auto table = what_ifs(history, on, question, shipped_catalogue());
  REQUIRE(table);
  CHECK(table->asked_on == make_day(2020, 9, 1));
  std::map<std::string, const WhatIf*> cases;
  for (const WhatIf& one : table->cases) cases[one.id] = &one;
  REQUIRE(cases.size() == 7);
  CHECK(cases.at("as-it-is")->half_up_shift == 0);
  CHECK(*cases.at("soil+1")->half_up_shift >= 2);
  CHECK(*cases.at("soil+2")->half_up_shift > *cases.at("soil+1")->half_up_shift);
  CHECK(*cases.at("soil-1")->half_up_shift <= -2);
  CHECK(*cases.at("soil-2")->half_up_shift < *cases.at("soil-1")->half_up_shift);
  CHECK(std::abs(*cases.at("missing-week")->half_up_shift) <= 3);
  CHECK(cases.at("not-watered")->title == "turf not watered");
  for (const auto& [id, one] : cases) {
    INFO(id);
    REQUIRE(one->best_week);
    CHECK(*one->best_week >= monday_of(table->asked_on));
  }
  // The morning's own answer does not change with what came after it.
  const auto later = what_ifs(history_of(site_with(wavy_record(on - Days{30}), on - Days{30})), on - Days{30},
                              question, shipped_catalogue());
  REQUIRE(later);
  CHECK(later->asked_on == table->asked_on);
}

TEST_CASE("before this season's morning the what-ifs are of the season before, and a short record has none") {
  const Day on = make_day(2020, 8, 20);
  const TurfFacts turf_facts;
  const treatment::TankPlan plan;
  const treatment::ResistantShares resistant;
  const WhatIfQuestion question{
      &shipped_catalogue().targets.at("POAAN"), &turf_facts, &plan, &resistant, {60, 1}};
  const auto table = what_ifs(history_of(site_with(wavy_record(on), on)), on, question, shipped_catalogue());
  REQUIRE(table);
  CHECK(table->asked_on == make_day(2019, 9, 1));
  weather::DailyWeather few = wavy_record(on);
  for (auto* series : {&few.air_min, &few.air_max}) *series = series->slice({make_day(2020, 1, 1), on});
  CHECK(!what_ifs(history_of(site_with(few, on)), on, question, shipped_catalogue()));
}
