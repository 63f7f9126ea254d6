// SPDX-License-Identifier: MIT
// Degree-days by hand: every figure is one a reader gets with pencil and paper.
#include "advice/comparison/degree_day_lesson.hpp"

#include <catch2/catch.hpp>

#include "made_up_site.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

/// Highs and lows in Fahrenheit from March 1, the last pair through the end of April.
weather::DailyWeather spring_of(int year, const std::vector<std::pair<double, double>>& days_f) {
  weather::DailyWeather daily;
  std::size_t i = 0;
  for (Day day = make_day(year, 3, 1); day < make_day(year, 5, 1); day += Days{1}, ++i) {
    const auto& [high, low] = days_f[std::min(i, days_f.size() - 1)];
    daily.air_max.set(day, Temperature::from_fahrenheit(high), Quality::measured);
    daily.air_min.set(day, Temperature::from_fahrenheit(low), Quality::measured);
  }
  return daily;
}

const std::vector<std::pair<double, double>> cold_then_warm{{51.0, 39.6}, {58.7, 34.0}, {58.3, 37.9},
                                                            {65.2, 51.6}, {76.2, 50.0}, {74.6, 48.3},
                                                            {70.4, 50.8}, {60.0, 40.0}};
const Temperature fifty = Temperature::from_celsius(10.0);
const Place north{36.0, -79.0, {}};

}  // namespace

TEST_CASE("the worked days are added as by hand") {
  const auto lesson =
      degree_day_lesson(spring_of(2026, cold_then_warm), north, make_day(2026, 10, 15), fifty, true);
  REQUIRE(lesson);
  CHECK(lesson->base == 50.0);
  REQUIRE(lesson->worked.size() == 5);
  // (51.0 + 39.6) / 2 = 45.3, below 50; ... (65.2 + 51.6) / 2 = 58.4: 8.4; (76.2 + 50.0) / 2 = 63.1: 13.1, in
  // all 21.5.
  CHECK(lesson->worked[0].mean == Approx(45.3));
  CHECK(lesson->worked[2].sum == 0.0);
  CHECK(lesson->worked[3].above == Approx(8.4));
  CHECK(lesson->worked[4].sum == Approx(21.5));
  // Worksheet: (74.6 + 48.3) / 2 - 50 = 11.45; (70.4 + 50.8) / 2 - 50 = 10.6; then nothing (a mean of 50).
  REQUIRE(lesson->exercise.size() == 6);
  CHECK(lesson->exercise[0].day == make_day(2026, 3, 6));
  CHECK(lesson->exercise[0].sum == Approx(11.45));
  CHECK(lesson->exercise[1].sum == Approx(22.05));
  CHECK(lesson->exercise[5].sum == Approx(22.05));
  // 0.4 of 22.05, down to a five: 5; passed on the first day, and never from the third day on.
  CHECK(lesson->asked_sum == 5.0);
  CHECK(lesson->passed_on == make_day(2026, 3, 6));
  CHECK(!lesson->passed_on_late);
  CHECK((lesson->cold_high + lesson->cold_low) / 2.0 < lesson->base);
}

TEST_CASE(
    "the methods' sums are of the whole spring, and half a day above the base adds by all but the average") {
  // 55 and 41 F every day but the lesson's: a mean of 48 adds nothing by the average, but hours above 50 do
  // by the rest.
  std::vector<std::pair<double, double>> days = cold_then_warm;
  days.back() = {55.0, 41.0};
  const auto lesson = degree_day_lesson(spring_of(2026, days), north, make_day(2026, 10, 15), fifty, true);
  REQUIRE(lesson);
  REQUIRE(lesson->methods.size() == 4);
  CHECK(lesson->spring.size() == 61);
  // By the average: 8.4 + 13.1 + 11.45 + 10.6.
  CHECK(lesson->methods[0].method == "average");
  CHECK(lesson->methods[0].sum == Approx(43.55).margin(0.01));
  // The triangle adds (55 - 50)^2 / (2 x 14) a day for the 54 equal days, and more on the first three.
  CHECK(lesson->methods[1].sum > 43.55 + 54 * 25.0 / 28.0);
  // The clamped method takes the low as 50: (55 - 50) / 2 a day.
  CHECK(lesson->methods[3].sum > 43.55 + 54 * 2.5);
}

TEST_CASE("in Celsius the lines are Celsius, and a spring that is not over is not used") {
  const auto metric =
      degree_day_lesson(spring_of(2026, cold_then_warm), north, make_day(2026, 10, 15), fifty, false);
  REQUIRE(metric);
  CHECK(metric->base == 10.0);
  CHECK(metric->worked[0].high == Approx(10.6));  // 51.0 F
  CHECK(!degree_day_lesson(spring_of(2026, cold_then_warm), north, make_day(2026, 4, 20), fifty, true));
  // All warm: nothing to show below the base.
  CHECK(!degree_day_lesson(spring_of(2026, {{80.0, 60.0}}), north, make_day(2026, 10, 15), fifty, true));
  // A hole in the lesson's days moves it to later ones, of which none suit here.
  weather::DailyWeather holed = spring_of(2026, cold_then_warm);
  holed.air_min.clear(make_day(2026, 3, 4));
  CHECK(!degree_day_lesson(holed, north, make_day(2026, 10, 15), fifty, true));
}
