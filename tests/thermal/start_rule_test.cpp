// SPDX-License-Identifier: MIT
#include "thermal/start_rule.hpp"

#include <catch2/catch.hpp>

using namespace soilclock;
using namespace soilclock::thermal;

namespace {

const DailySeries<Temperature> no_temperatures;

Season season(int year, unsigned month, SeasonKind kind, Hemisphere hemisphere) {
  return season_of(make_day(year, month, 25), kind, hemisphere);
}

}  // namespace

TEST_CASE("starts are read and printed alike, and anything else is refused") {
  for (const char* text : {"season", "02-15", "01-01", "02-29", "12-31"}) {
    const auto rule = parse_start(text);
    REQUIRE(rule.has_value());
    CHECK(text_of(*rule) == text);
  }
  for (const char* text : {"", "2-15", "02-30", "13-01", "02-15 ", "15 Feb"}) {
    const auto rule = parse_start(text);
    REQUIRE_FALSE(rule.has_value());
    CHECK(rule.error().family == Family::request);
  }
}

TEST_CASE("a date lies in the season asked for, six months later in the south") {
  const StartRule mid_february = StartByDate{2, 15};
  CHECK(start_day(mid_february, season(2024, 6, SeasonKind::summer, Hemisphere::north), no_temperatures) ==
        make_day(2024, 2, 15));
  CHECK(start_day(mid_february, season(2024, 8, SeasonKind::summer, Hemisphere::south), no_temperatures) ==
        make_day(2024, 8, 15));
  // A fall season runs over New Year: February belongs to the year after its start.
  CHECK(start_day(mid_february, season(2024, 9, SeasonKind::fall, Hemisphere::north), no_temperatures) ==
        make_day(2025, 2, 15));
  CHECK(start_day(StartByDate{9, 1}, season(2024, 12, SeasonKind::fall, Hemisphere::south),
                  no_temperatures) == make_day(2025, 3, 1));
}

TEST_CASE("the season's own first day is the start when the rule says season") {
  CHECK(start_day(StartWithSeason{}, season(2024, 9, SeasonKind::fall, Hemisphere::north), no_temperatures) ==
        make_day(2024, 6, 21));
}

TEST_CASE("29 February is 1 March in a common year") {
  const StartRule leap_day = StartByDate{2, 29};
  CHECK(start_day(leap_day, season(2023, 6, SeasonKind::summer, Hemisphere::north), no_temperatures) ==
        make_day(2023, 3, 1));
  CHECK(start_day(leap_day, season(2024, 6, SeasonKind::summer, Hemisphere::north), no_temperatures) ==
        make_day(2024, 2, 29));
}

TEST_CASE(
    "a crossing starts a sum on the first day of its run, not before its date and not outside the season") {
  const Season autumn = season(2024, 9, SeasonKind::fall, Hemisphere::north);
  DailySeries<Temperature> soil{autumn.days()};
  // A cool week in early July that must not count, then 0.2 C a day downward through 18.9 C.
  for (Day day = soil.days().begin(); day < soil.days().end(); day += Days{1}) {
    const int d = autumn.day_of_season(day);
    const double value = d >= 10 && d < 24 ? 15.0 : 30.0 - 0.2 * (d - 40);
    soil.set(day, Temperature::from_celsius(value), Quality::measured);
  }
  const StartRule rule = StartByCrossing{{Temperature::from_celsius(18.9), Side::at_or_below, 5}, {8, 1}};
  // The seven-day mean lags by three days: 30 - 0.2 (d - 43) <= 18.9 from d = 98.5 on.
  CHECK(start_day(rule, autumn, soil) == autumn.first + Days{99});
  CHECK_FALSE(start_day(rule, autumn.next(), soil).has_value());
  CHECK(text_of(rule) == "from 08-01: 5 days of the 7-day mean at or below 18.9 C");
}
