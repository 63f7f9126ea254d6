// SPDX-License-Identifier: MIT
#include "advice/site/soil_rules.hpp"

#include <catch2/catch.hpp>

#include "made_up_site.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const Season rules_season = season_of(make_day(2020, 8, 1), SeasonKind::fall, Hemisphere::north);

/// One habit: daily means at or below 20 C for five days.
Practice five_days_below_20(SoilRule::Direction direction = SoilRule::Direction::falling) {
  SoilRule rule;
  rule.id = "below-20";
  rule.targets = {"POAAN"};
  rule.title = "Below 20 C";
  rule.direction = direction;
  rule.temperature = celsius(20.0);
  rule.run_days = 5;
  Practice practice;
  practice.soil_rules = {rule};
  practice.weekly_means = shipped_catalogue().practice.weekly_means;
  return practice;
}

/// Ground of a site with a day of air; its soil is then laid over it.
SiteSoil some_ground() {
  const Day day = make_day(2020, 6, 21);
  return site_soil(site_with(air_of({day, day + Days{1}}, [](Day) { return 20.0; }), day + Days{1}),
                   shipped_catalogue().soil);
}

/// Soil by date; the rule looks no further than the day of the answer.
SoilRuleStatus read(const Practice& practice, const std::function<double(Day)>& soil_c, Day on,
                    const Season& season = rules_season) {
  SiteWeather site;
  site.place = carolina;
  site.on = on;
  SiteSoil soil = some_ground();
  soil.best_5cm = {};
  soil.shallow = {};
  for (Day day = season.first; day < season.end(); day += Days{1}) {
    soil.best_5cm.set(day, celsius(soil_c(day)), Quality::measured);
    soil.shallow.set(day, celsius(soil_c(day) + 3.0), Quality::modelled);
  }
  const auto readings = read_soil_rules(practice, "POAAN", season, site, soil);
  REQUIRE(readings.size() == 1);
  return readings.front();
}

bool within(Day day, Day first, Day last) { return first <= day && day <= last; }

/// Cool from 10 to 19 September, warm again, cool for good from 1 October.
double turning(Day day) {
  const bool cool = within(day, make_day(2020, 9, 10), make_day(2020, 9, 19)) || day >= make_day(2020, 10, 1);
  return cool ? 18.0 : 24.0;
}

}  // namespace

TEST_CASE("the first run, the run that holds now and the turns between are told apart") {
  const Practice practice = five_days_below_20();
  const SoilRuleStatus october = read(practice, turning, make_day(2020, 10, 20));
  CHECK(october.first_run == make_day(2020, 9, 10));
  CHECK(october.last_run == make_day(2020, 10, 1));
  CHECK(october.reversals == 1);
}

TEST_CASE("while the soil is warm again no run holds") {
  const SoilRuleStatus warm_again = read(five_days_below_20(), turning, make_day(2020, 9, 26));
  CHECK(warm_again.first_run == make_day(2020, 9, 10));
  CHECK(!warm_again.last_run);
  CHECK(warm_again.reversals == 1);
}

TEST_CASE("a run counts from its fifth day on, and nothing after the morning of the answer does") {
  const Practice practice = five_days_below_20();
  CHECK(!read(practice, turning, make_day(2020, 9, 14)).first_run);  // four days known
  CHECK(read(practice, turning, make_day(2020, 9, 15)).first_run == make_day(2020, 9, 10));
  CHECK(read(practice, turning, make_day(2020, 9, 15)).last_run == make_day(2020, 9, 10));
  CHECK(!read(practice, turning, make_day(2020, 10, 4)).last_run);  // the new run is three days old
}

TEST_CASE("cool nights before 1 August do not count") {
  const auto cool_july = [](Day day) { return day < make_day(2020, 7, 28) ? 18.0 : turning(day); };
  CHECK(read(five_days_below_20(), cool_july, make_day(2020, 10, 20)).first_run == make_day(2020, 9, 10));
}

TEST_CASE("a rising habit looks for warmth from 1 February") {
  const Season summer = season_of(make_day(2021, 4, 1), SeasonKind::summer, Hemisphere::north);
  const auto spring = [](Day day) {
    const bool warm = day < make_day(2021, 1, 20) || day >= make_day(2021, 5, 1);
    return warm ? 22.0 : 12.0;
  };
  const SoilRuleStatus reading =
      read(five_days_below_20(SoilRule::Direction::rising), spring, make_day(2021, 5, 20), summer);
  CHECK(reading.first_run == make_day(2021, 5, 1));
  CHECK(reading.reversals == 0);
}

TEST_CASE("a southern fall season is looked at from 1 February") {
  const Season south = season_of(make_day(2021, 3, 1), SeasonKind::fall, Hemisphere::south);
  const auto mirrored = [](Day day) { return turning(day - Days{184}); };
  const SoilRuleStatus reading = read(five_days_below_20(), mirrored, make_day(2021, 4, 20), south);
  CHECK(reading.first_run == make_day(2020, 9, 10) + Days{184});
}

TEST_CASE("shallow rules read shallow soil and weekly rules the trailing week") {
  Practice shallow = five_days_below_20();
  shallow.soil_rules.front().depth = Depth::from_cm(2.5);
  CHECK(
      !read(shallow, turning, make_day(2020, 10, 20)).first_run);  // 3 C warmer there: never at or below 20 C
  Practice weekly = five_days_below_20();
  weekly.soil_rules.front().statistic = SoilRule::Statistic::trailing_week;
  // From 24 to 18 C: the week passes 20 C once five of its seven days are cool, 14 September.
  CHECK(read(weekly, turning, make_day(2020, 10, 20)).first_run == make_day(2020, 9, 14));
}

TEST_CASE("habits of other grasses are not shown") {
  SiteWeather site;
  site.on = make_day(2020, 10, 20);
  CHECK(read_soil_rules(five_days_below_20(), "DIGIS", rules_season, site, some_ground()).empty());
}

TEST_CASE("a reading that moves a date of the past says so, and one that moves none is silent") {
  const Day on = make_day(2020, 10, 20);
  const auto asked = [&](std::optional<double> off_k) {
    SiteWeather site = site_with(
        air_of({make_day(2019, 6, 1), on}, [](Day day) { return annual_wave(day, 14.0, 12.0); }), on);
    const SiteSoil plain = site_soil(site, shipped_catalogue().soil);
    if (off_k) {
      const Day day = on - Days{2};
      site.spots = {
          {day, Depth::from_cm(5.0), *plain.best_5cm.at(day) + TemperatureDelta::from_kelvin(*off_k), 0.5}};
    }
    const SiteSoil soil = site_soil(site, shipped_catalogue().soil);
    const Practice practice = five_days_below_20();
    const auto readings = read_soil_rules(practice, "POAAN", rules_season, site, soil);
    return std::pair{readings.front().first_run,
                     dates_moved_by_later_readings(readings, practice, "POAAN", rules_season, site, soil)};
  };
  const auto [first, silent] = asked({});
  CHECK(silent.empty());
  CHECK(asked(0.0).second.empty());
  const auto [moved, said] = asked(4.0);
  REQUIRE(first);
  REQUIRE(moved);
  CHECK(*moved > *first);
  REQUIRE(said.size() == 1);
  CHECK(said.front().code == "soil-date-moved");
  CHECK(said.front().text.find("from " + short_date(*first) + " to " + short_date(*moved)) !=
        std::string::npos);
}
