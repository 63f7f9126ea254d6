// SPDX-License-Identifier: MIT
#include "treatment/sun.hpp"

#include <catch2/catch.hpp>

using namespace soilclock;
using namespace soilclock::treatment;

TEST_CASE("daylight of 3 September at 20 degrees south is 11.7 hours") {
  // FAO Irrigation and Drainage Paper 56, example 9.
  const auto sun = sun_hours({-20.0, 0.0, {}}, 0.0, make_day(2021, 9, 3));
  REQUIRE(sun);
  CHECK(sun->sunset - sun->sunrise == Approx(11.7).margin(0.05));
}

TEST_CASE("sunrise and sunset at Nashville fall within ten minutes of the almanac") {
  // Common almanac times in standard time (UTC-6), upper limb with refraction: 21 June 4:32 and 19:07, 21
  // December 6:54 and 16:35. Remembered, rounded to the minute.
  const Place nashville{36.16, -86.78, {}};
  const auto june = sun_hours(nashville, -6.0, make_day(2021, 6, 21));
  const auto december = sun_hours(nashville, -6.0, make_day(2021, 12, 21));
  REQUIRE(june);
  REQUIRE(december);
  CHECK(june->sunrise == Approx(4.0 + 32.0 / 60.0).margin(10.0 / 60.0));
  CHECK(june->sunset == Approx(19.0 + 7.0 / 60.0).margin(10.0 / 60.0));
  CHECK(december->sunrise == Approx(6.0 + 54.0 / 60.0).margin(10.0 / 60.0));
  CHECK(december->sunset == Approx(16.0 + 35.0 / 60.0).margin(10.0 / 60.0));
}

TEST_CASE("the polar night has no sunrise") {
  CHECK(!sun_hours({70.0, 20.0, {}}, 1.0, make_day(2021, 12, 21)));
  CHECK(!sun_hours({-75.0, 20.0, {}}, 1.0, make_day(2021, 6, 21)));
}
