// SPDX-License-Identifier: MIT
#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/degree_days.hpp"
#include "core/depth.hpp"
#include "core/fraction.hpp"
#include "core/rain.hpp"
#include "core/series.hpp"
#include "core/temperature.hpp"

using namespace soilclock;

TEST_CASE("temperatures convert as points and differences as differences") {
  CHECK(Temperature::from_fahrenheit(70.0).celsius() == Approx(21.111111));
  CHECK(Temperature::from_fahrenheit(-40.0).celsius() == Approx(-40.0));
  CHECK(Temperature::from_kelvin(273.15).celsius() == Approx(0.0).margin(1e-12));
  CHECK(TemperatureDelta::from_kelvin(5.0).fahrenheit_degrees() == Approx(9.0));
  CHECK((Temperature::from_fahrenheit(59.0) - Temperature::from_fahrenheit(50.0)).kelvin() == Approx(5.0));
  CHECK(midpoint(Temperature::from_celsius(4.0), Temperature::from_celsius(10.0)).celsius() == Approx(7.0));
}

TEST_CASE("a degree-day converts by 1.8 without 32") {
  CHECK(DegreeDays::from_celsius_days(100.0).fahrenheit_days() == Approx(180.0));
}

TEST_CASE("what is unknown is not a number and never zero") {
  CHECK_FALSE(Temperature{}.known());
  CHECK_FALSE(Rain{}.known());
  CHECK(std::isnan((Temperature{} - Temperature::from_celsius(1.0)).kelvin()));
  CHECK_FALSE(midpoint(Temperature::unknown(), Temperature::from_celsius(3.0)).known());
  CHECK(Rain::from_mm(0.0).known());
}

TEST_CASE("shares stay within the whole and percent only shifts the point") {
  CHECK(Fraction::of(1.0000001).value() == 1.0);
  CHECK(Fraction::of(-0.1).value() == 0.0);
  CHECK(Fraction::from_percent(42.0).value() == Approx(0.42));
}

TEST_CASE("depths and rain convert between inches and metric units") {
  CHECK(Depth::from_inches(2.0).cm() == Approx(5.08));
  CHECK(Rain::from_inches(0.5).mm() == Approx(12.7));
}

TEST_CASE("a series grows in both directions and the days between are missing") {
  DailySeries<Temperature> series;
  const Day day = make_day(2024, 2, 28);
  series.set(day, Temperature::from_celsius(1.0), Quality::measured);
  series.set(day + Days{3}, Temperature::from_celsius(4.0), Quality::filled);
  series.set(day - Days{2}, Temperature::from_celsius(-1.0), Quality::forecast);
  CHECK(series.size() == 6);
  CHECK(series.first() == make_day(2024, 2, 26));
  CHECK(series.last() == make_day(2024, 3, 2));
  CHECK(series.count_missing() == 3);
  CHECK_FALSE(series.at(make_day(2024, 2, 29)).has_value());
  CHECK(series.at(day + Days{3})->celsius() == 4.0);
  CHECK(series.quality(day - Days{2}) == Quality::forecast);
  CHECK(series.quality(make_day(1999, 1, 1)) == Quality::missing);
  series.clear(day);
  CHECK_FALSE(series.at(day).has_value());
  CHECK(std::isnan(series.values()[2].celsius()));
}

TEST_CASE("a slice is exactly the range asked for") {
  DailySeries<Temperature> series;
  const Day day = make_day(2024, 1, 1);
  for (int i = 0; i < 5; ++i) series.set(day + Days{i}, Temperature::from_celsius(i), Quality::measured);
  const auto part = series.slice({day + Days{3}, day + Days{8}});
  CHECK((part.days() == DayRange{day + Days{3}, day + Days{8}}));
  CHECK(part.at(day + Days{4})->celsius() == 4.0);
  CHECK(part.count_missing() == 3);
}

TEST_CASE("setting days in any order gives the same series") {
  rc::prop("order of setting does not matter", [] {
    const auto offsets = *rc::gen::unique<std::vector<int>>(rc::gen::inRange(-40, 40));
    DailySeries<Temperature> forward;
    DailySeries<Temperature> backward;
    const Day base = make_day(2024, 1, 1);
    for (const int i : offsets) forward.set(base + Days{i}, Temperature::from_celsius(i), Quality::measured);
    for (auto it = offsets.rbegin(); it != offsets.rend(); ++it) {
      backward.set(base + Days{*it}, Temperature::from_celsius(*it), Quality::measured);
    }
    RC_ASSERT(forward.days() == backward.days());
    RC_ASSERT(forward.count_missing() == forward.size() - static_cast<int>(offsets.size()));
    for (Day day = forward.days().begin(); day < forward.days().end(); day += Days{1}) {
      RC_ASSERT(forward.at(day).has_value() == backward.at(day).has_value());
      if (forward.at(day)) RC_ASSERT(forward.at(day)->celsius() == backward.at(day)->celsius());
    }
  });
}
