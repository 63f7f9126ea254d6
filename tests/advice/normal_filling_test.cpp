// SPDX-License-Identifier: MIT
#include "advice/futures/normal_filling.hpp"

#include <catch2/catch.hpp>

#include "made_up_site.hpp"
#include "rapidcheck/catch.h"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const DayRange year{make_day(2020, 1, 1), make_day(2021, 1, 1)};
const Day hole = make_day(2020, 7, 10);

/// A year of the plain wave, `off` warmer throughout July, with some days taken out.
weather::DailyWeather with_hole(int days, double off = 0.0) {
  auto air = air_of(
      year, [&](Day day) { return annual_wave(day, 13.0, 11.0) + (civil(day).month == 7 ? off : 0.0); });
  for (Day day = hole; day < hole + Days{days}; day += Days{1}) {
    air.air_min.clear(day);
    air.air_max.clear(day);
  }
  return air;
}

double mean_on(const weather::DailyWeather& weather, Day day) {
  return midpoint(*weather.air_min.at(day), *weather.air_max.at(day)).celsius();
}

}  // namespace

TEST_CASE("a hole is closed with the usual course of the record and marked as taken from past years") {
  auto air = with_hole(8);
  CHECK(fill_from_normals(air, carolina, 10, shipped_catalogue().futures) == 8);
  for (Day day = hole; day < hole + Days{8}; day += Days{1}) {
    // A year alone is pulled a little toward the wave of its latitude.
    CHECK(mean_on(air, day) == Approx(annual_wave(day, 13.0, 11.0)).margin(0.3));
    CHECK((*air.air_max.at(day) - *air.air_min.at(day)).kelvin() == Approx(12.0).margin(1.5));
    CHECK(air.air_min.quality(day) == Quality::past_year);
    CHECK(air.air_max.quality(day) == Quality::past_year);
  }
  CHECK(air.air_min.quality(hole - Days{1}) == Quality::measured);
}

TEST_CASE("a hole in a warm spell is filled warm") {
  auto air = with_hole(6, 6.0);
  fill_from_normals(air, carolina, 10, shipped_catalogue().futures);
  CHECK(mean_on(air, hole + Days{3}) > annual_wave(hole + Days{3}, 13.0, 11.0) + 4.0);
}

TEST_CASE("a longer hole stays a hole, and so does what lies before the first and after the last day") {
  auto air = with_hole(11);
  CHECK(fill_from_normals(air, carolina, 10, shipped_catalogue().futures) == 0);
  CHECK(!air.air_min.at(hole));
  CHECK(!air.air_min.at(year.end()));
  weather::DailyWeather empty;
  CHECK(fill_from_normals(empty, carolina, 10, shipped_catalogue().futures) == 0);
}

TEST_CASE("a measured extreme is kept, and a guess on its wrong side is not put beside it") {
  auto air = with_hole(5);
  air.air_min.set(hole + Days{1}, celsius(16.5), Quality::measured);
  air.air_min.set(hole + Days{2}, celsius(45.0), Quality::measured);  // above the usual maximum
  const int filled = fill_from_normals(air, carolina, 10, shipped_catalogue().futures);
  CHECK(air.air_min.at(hole + Days{1}) == celsius(16.5));
  CHECK(air.air_min.quality(hole + Days{1}) == Quality::measured);
  CHECK(air.air_max.quality(hole + Days{1}) == Quality::past_year);
  CHECK(air.air_min.at(hole + Days{2}) == celsius(45.0));
  CHECK(!air.air_max.at(hole + Days{2}));
  CHECK(filled == 4);  // the day left open is not counted as filled
}

TEST_CASE("laws of filling") {
  rc::prop("known days are never touched and a minimum never lies above its maximum", [] {
    auto air = with_hole(*rc::gen::inRange(1, 15), *rc::gen::inRange(-100, 100) / 10.0);
    const auto before = air;
    fill_from_normals(air, carolina, 10, shipped_catalogue().futures);
    for (Day day = year.begin(); day < year.end(); day += Days{1}) {
      if (before.air_min.at(day)) RC_ASSERT(air.air_min.at(day) == before.air_min.at(day));
      if (air.air_min.at(day) && air.air_max.at(day)) RC_ASSERT(*air.air_min.at(day) <= *air.air_max.at(day));
    }
  });
}
