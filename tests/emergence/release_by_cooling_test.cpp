// SPDX-License-Identifier: MIT
#include "emergence/release_by_cooling.hpp"

#include <catch2/catch.hpp>

#include "support/season_weather.hpp"

using namespace soilclock;
using namespace soilclock::emergence;
using testing::SeasonWeather;

namespace {

constexpr int august_1 = 41;
constexpr int november_5 = 137;
constexpr int may_15 = 328;

/// Central numbers of the model file, with a base that makes warmth of round numbers: soil of 15 C
/// counts 11.6 a day, ten days of it are the 116 C d at which half of a released part is up.
ReleaseParameters round_parameters() {
  return {.ceiling = {3.0, 5.0, 15.0, 20.0, 25.0},
          .ceiling_shift_c = 0.0,
          .release_from_day = august_1,
          .base = Temperature::from_celsius(3.4),
          .half_up = DegreeDays::from_celsius_days(116.0),
          .steepness = 4,
          .dry_speed = 0.15,
          .full_water = Rain::from_mm(12.7),
          .unknown_rain_speed = 0.75,
          .autumn_share = 0.76,
          .winter_from_day = november_5,
          .winter_to_day = may_15,
          .winter_soil = Temperature::from_celsius(5.0)};
}

EmergenceCurve run(const SeasonWeather& weather, const ReleaseParameters& p, bool irrigated = true) {
  return run_release_by_cooling(weather.drivers({irrigated, 0.0}), p);
}

}  // namespace

TEST_CASE("a pool set free at once is half up after its thermal time") {
  const SeasonWeather cool{[](int) { return 15.0; }};
  const EmergenceCurve curve = run(cool, round_parameters());
  CHECK(curve.at(august_1) == 0.0);  // released that day, nothing up yet
  CHECK(curve.at(august_1 + 10) == Approx(0.76 / 2.0).margin(0.001));
  CHECK(curve.at(august_1 + 5) == Approx(0.76 / 17.0).margin(0.001));  // 1/(1 + 2^4)
}

TEST_CASE("no seed is set free in soil of 25 C or before the release day") {
  const SeasonWeather hot{[](int day) { return day < 100 ? 25.0 : 15.0; }};
  const EmergenceCurve curve = run(hot, round_parameters());
  CHECK(curve.at(100) == 0.0);
  CHECK(curve.at(130) > 0.5);
  const SeasonWeather cold_june{[](int day) { return day < 30 ? 12.0 : 26.0 - (day > 100 ? 12.0 : 0.0); }};
  CHECK(run(cold_june, round_parameters()).at(100) == 0.0);
}

TEST_CASE("half the pool comes up at 20 C, the rest waits for cooler soil") {
  // Standifer & Wilson 1988: about half of summer-rested seed germinates at 20 C, nearly all at 15 C.
  const SeasonWeather steps{[](int day) { return day < 100 ? 20.0 : 15.0; }};
  const EmergenceCurve curve = run(steps, round_parameters());
  CHECK(curve.at(99) == Approx(0.5 * 0.76).margin(0.01));
  CHECK(curve.at(november_5 - 1) == Approx(0.76).margin(0.02));
}

TEST_CASE("a warm spell pauses release and takes nothing back") {
  const SeasonWeather spell{[](int day) { return day >= 60 && day < 90 ? 26.0 : day < 100 ? 20.0 : 15.0; }};
  const SeasonWeather steady{[](int day) { return day < 100 ? 20.0 : 15.0; }};
  const EmergenceCurve paused = run(spell, round_parameters());
  for (int d = 1; d < 365; ++d) REQUIRE(paused.at(d) >= paused.at(d - 1));
  CHECK(paused.at(99) == Approx(run(steady, round_parameters()).at(99)).margin(0.02));
}

TEST_CASE("a quarter of the season comes after 5 November") {
  // Kaminski & Dernoeden 2007, Crop Sci 47:775-781: 24 % from November to May.
  const SeasonWeather mild{[](int) { return 15.0; }};
  const EmergenceCurve curve = run(mild, round_parameters());
  CHECK(curve.at(november_5 - 1) == Approx(0.76).margin(0.001));
  const int half_way = november_5 + (may_15 - november_5) / 2;
  CHECK(curve.at(half_way) == Approx(0.88).margin(0.005));
  CHECK(curve.at(may_15) == Approx(1.0).margin(1e-6));
  CHECK(curve.main_wave_over < november_5);
  // A winter under 5 C leaves all to autumn.
  const SeasonWeather frozen{[](int day) { return day < november_5 ? 15.0 : 0.0; }};
  CHECK(run(frozen, round_parameters()).at(november_5) == Approx(1.0).margin(0.01));
}

TEST_CASE("dry soil lets the clock creep at its dry speed, irrigation keeps it running") {
  SeasonWeather dry{[](int) { return 15.0; }};
  for (int day = -lead_in_days; day < dry.days(); ++day) dry.set_rain(day, 0.0);
  const EmergenceCurve held = run(dry, round_parameters(), false);
  const EmergenceCurve watered = run(dry, round_parameters(), true);
  CHECK(watered.at(august_1 + 10) == Approx(0.38).margin(0.001));
  CHECK(held.at(august_1 + 10) < 0.01);
  // 0.15 of the speed: half of the part is up after 10/0.15 = 66.7 days.
  CHECK(held.at(august_1 + 66) < 0.38);
  CHECK(held.at(august_1 + 67) > 0.38);
}

TEST_CASE("rain that nobody measured counts as middling moist") {
  const SeasonWeather unknown{[](int) { return 15.0; }};
  // Three quarters of the speed: 87 C d instead of 116, so 0.76 / (1 + (116/87)^4) are up.
  CHECK(run(unknown, round_parameters(), false).at(august_1 + 10) == Approx(0.1827).margin(0.001));
}

TEST_CASE("seed that bears warmer soil comes up sooner") {
  const SeasonWeather cooling{[](int day) { return 26.0 - 0.1 * day; }};
  ReleaseParameters northern = round_parameters();
  northern.ceiling_shift_c = 4.0;
  const auto half = [&](const ReleaseParameters& p) { return *run(cooling, p).first_day_reaching(0.38); };
  CHECK(half(northern) < half(round_parameters()) - 20);
}
