// SPDX-License-Identifier: MIT
#include "thermal/start_rule.hpp"

#include <catch2/catch.hpp>

using namespace soilclock;
using namespace soilclock::thermal;

namespace {

Season season(int year, unsigned month, SeasonKind kind, Hemisphere hemisphere) {
  return season_of(make_day(year, month, 25), kind, hemisphere);
}

}  // namespace

TEST_CASE("starts are read, and anything else is refused") {
  CHECK(parse_start("season") == StartRule{StartWithSeason{}});
  CHECK(parse_start("02-15") == StartRule{StartByDate{2, 15}});
  CHECK(parse_start("02-29") == StartRule{StartByDate{2, 29}});
  CHECK(parse_start("12-31") == StartRule{StartByDate{12, 31}});
  for (const char* text : {"", "2-15", "02-30", "13-01", "02-15 ", "15 Feb"}) {
    const auto rule = parse_start(text);
    REQUIRE_FALSE(rule.has_value());
    CHECK(rule.error().family == Family::request);
  }
}

TEST_CASE("a date lies in the season asked for, six months later in the south") {
  const StartRule mid_february = StartByDate{2, 15};
  CHECK(start_day(mid_february, season(2024, 6, SeasonKind::summer, Hemisphere::north)) ==
        make_day(2024, 2, 15));
  CHECK(start_day(mid_february, season(2024, 8, SeasonKind::summer, Hemisphere::south)) ==
        make_day(2024, 8, 15));
  // A fall season runs over New Year: February belongs to the year after its start.
  CHECK(start_day(mid_february, season(2024, 9, SeasonKind::fall, Hemisphere::north)) ==
        make_day(2025, 2, 15));
  CHECK(start_day(StartByDate{9, 1}, season(2024, 12, SeasonKind::fall, Hemisphere::south)) ==
        make_day(2025, 3, 1));
}

TEST_CASE("the season's own first day is the start when the rule says season") {
  CHECK(start_day(StartWithSeason{}, season(2024, 9, SeasonKind::fall, Hemisphere::north)) ==
        make_day(2024, 6, 21));
}

TEST_CASE("29 February is 1 March in a common year") {
  const StartRule leap_day = StartByDate{2, 29};
  CHECK(start_day(leap_day, season(2023, 6, SeasonKind::summer, Hemisphere::north)) == make_day(2023, 3, 1));
  CHECK(start_day(leap_day, season(2024, 6, SeasonKind::summer, Hemisphere::north)) == make_day(2024, 2, 29));
}
