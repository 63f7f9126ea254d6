// SPDX-License-Identifier: MIT
#include "advice/futures/forecast_members.hpp"

#include <catch2/catch.hpp>

#include "support/shipped_catalogue.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using tests::shipped_catalogue;

namespace {

const Day first = make_day(2026, 10, 15);
const DayRange week{first, first + Days{7}};

weather::DailyWeather constant(double low, double high, DayRange days) {
  weather::DailyWeather daily;
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    daily.air_min.set(day, Temperature::from_celsius(low), Quality::forecast);
    daily.air_max.set(day, Temperature::from_celsius(high), Quality::forecast);
  }
  return daily;
}

/// Members 1 K apart around 8 and 18 C.
std::vector<weather::DailyWeather> eleven(DayRange days) {
  std::vector<weather::DailyWeather> members;
  for (int m = -5; m <= 5; ++m) members.push_back(constant(8.0 + m, 18.0 + m, days));
  return members;
}

}  // namespace

TEST_CASE("members spread around the forecast that is used, not around their own mean") {
  const auto traces =
      spread_around(constant(10.0, 22.0, week), eleven(week), week, shipped_catalogue().futures);
  REQUIRE(traces.size() == 11);
  CHECK(traces[0].air_min.at(first)->celsius() == Approx(5.0));
  CHECK(traces[10].air_max.at(first)->celsius() == Approx(27.0));
  CHECK(traces[5].air_min.at(first + Days{6})->celsius() == Approx(10.0));
}

TEST_CASE("days the members do not reach keep the forecast") {
  const auto traces = spread_around(constant(10.0, 22.0, week), eleven({first, first + Days{3}}), week,
                                    shipped_catalogue().futures);
  REQUIRE(traces.size() == 11);
  CHECK(traces[0].air_min.at(first + Days{2})->celsius() == Approx(5.0));
  CHECK(traces[0].air_min.at(first + Days{3})->celsius() == Approx(10.0));
}

TEST_CASE("rain is the member's own, the forecast's where it has none") {
  auto forecast = constant(10.0, 22.0, week);
  forecast.rain.set(first, Rain::from_mm(4.0), Quality::forecast);
  auto members = eleven(week);
  members[3].rain.set(first, Rain::from_mm(11.0), Quality::forecast);
  const auto traces = spread_around(forecast, members, week, shipped_catalogue().futures);
  CHECK(traces[3].rain.at(first)->mm() == 11.0);
  CHECK(traces[4].rain.at(first)->mm() == 4.0);
  CHECK(!traces[4].rain.at(first + Days{1}));
}

TEST_CASE("a handful of members, or members of other days, are no ensemble") {
  auto few = eleven(week);
  few.resize(9);
  CHECK(spread_around(constant(10.0, 22.0, week), few, week, shipped_catalogue().futures).empty());
  const DayRange later{week.end(), week.end() + Days{7}};
  CHECK(spread_around(constant(10.0, 22.0, week), eleven(later), week, shipped_catalogue().futures).empty());
}

TEST_CASE("a maximum never falls below its minimum") {
  auto members = eleven(week);
  members[0] = constant(25.0, 26.0, week);
  for (const auto& trace :
       spread_around(constant(10.0, 12.0, week), members, week, shipped_catalogue().futures))
    CHECK(*trace.air_max.at(first) >= *trace.air_min.at(first));
}
