// SPDX-License-Identifier: MIT
#include "emergence/gated_clock.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "emergence/release_by_cooling.hpp"
#include "support/season_weather.hpp"

using namespace soilclock;
using namespace soilclock::emergence;
using testing::SeasonWeather;

namespace {

/// The clock without rest, cold, drought or lag: only the law of cooling is left.
GatedClockParameters bare_clock() {
  return {.crossing = Temperature::from_celsius(18.9),
          .width = TemperatureDelta::from_kelvin(1.1),
          .release_scale_days = 5.5,
          .lag_days = 1e-9,
          .autumn_share = 1.0,
          .rest_middle_day = -1000.0,
          .rest_scale_days = 8.0,
          .cold_stop = Temperature::from_celsius(-300.0),
          .cold_full = Temperature::from_celsius(-299.0),
          .dry_speed = 0.15,
          .full_water = Rain::from_mm(12.7),
          .irrigated_speed = 1.0,
          .unknown_rain_speed = 0.75,
          .weakest_cold_gate = 0.05,
          .winter_crossing_shift = TemperatureDelta::from_kelvin(1.0),
          .winter_dry_speed = 0.3};
}

GatedClockParameters central_clock() {
  GatedClockParameters clock = bare_clock();
  clock.lag_days = 3.5;
  clock.autumn_share = 0.76;
  clock.rest_middle_day = 60.0;
  clock.cold_stop = Temperature::from_celsius(5.0);
  clock.cold_full = Temperature::from_celsius(10.0);
  clock.irrigated_speed = 0.75;
  return clock;
}

/// Soil falling evenly through 18.9 C on season day 100.
SeasonWeather even_cooling() {
  return SeasonWeather{[](int day) { return 18.9 - 0.2 * (day - 100); }};
}

}  // namespace

TEST_CASE("soil cooling by 0.2 C a day makes the clock a logistic through the crossing day") {
  // Derived in the model's notes: 1 - R = 1/(1 + exp((t - crossing)/s)); with daily steps R is 0.52 on the
  // day itself.
  SeasonWeather weather = even_cooling();
  // A trailing week lags a steady fall by three days, so the seven-day mean passes 18.9 C on day 103.
  const EmergenceCurve curve = run_gated_clock(weather.drivers({true, 0.0}), bare_clock());
  CHECK(curve.up[103] == Approx(0.52).margin(0.01));
  for (const int day : {80, 95, 110, 125}) {
    CHECK(curve.up[static_cast<std::size_t>(day)] ==
          Approx(1.0 - 1.0 / (1.0 + std::exp((day + 0.5 - 103) / 5.5))).margin(0.012));
  }
  // 10 to 90 percent takes 2 * 2.197 * s days.
  CHECK(*curve.first_day_reaching(0.9) - *curve.first_day_reaching(0.1) == Approx(24.2).margin(1.0));
}

TEST_CASE("a warm spell pauses the clock and takes nothing back") {
  SeasonWeather weather{[](int day) { return day >= 110 && day < 120 ? 24.0 : 18.9 - 0.2 * (day - 100); }};
  const EmergenceCurve curve = run_gated_clock(weather.drivers({true, 0.0}), central_clock());
  for (std::size_t d = 1; d < curve.up.size(); ++d) CHECK(curve.up[d] >= curve.up[d - 1]);
  SeasonWeather steady = even_cooling();
  const EmergenceCurve unpaused = run_gated_clock(steady.drivers({true, 0.0}), central_clock());
  CHECK(curve.up[121] - curve.up[115] < 0.5 * (unpaused.up[121] - unpaused.up[115]));
}

TEST_CASE("a dry spell holds the autumn clock back and rain lets it catch up") {
  SeasonWeather dry = even_cooling();
  for (int day = 0; day < dry.days(); ++day) dry.set_rain(day, day < 110 || day > 112 ? 0.0 : 10.0);
  SeasonWeather wet = even_cooling();
  for (int day = 0; day < wet.days(); ++day) wet.set_rain(day, 3.0);
  const EmergenceCurve held = run_gated_clock(dry.drivers({false, 0.0}), central_clock());
  const EmergenceCurve free = run_gated_clock(wet.drivers({false, 0.0}), central_clock());
  CHECK(held.up[108] < 0.85 * free.up[108]);
  CHECK(free.up[118] - held.up[118] < 0.6 * (free.up[108] - held.up[108]));
}

TEST_CASE("irrigated turf does not wait for rain") {
  SeasonWeather dry = even_cooling();
  for (int day = 0; day < dry.days(); ++day) dry.set_rain(day, 0.0);
  const EmergenceCurve watered = run_gated_clock(dry.drivers({true, 0.0}), central_clock());
  const EmergenceCurve thirsty = run_gated_clock(dry.drivers({false, 0.0}), central_clock());
  CHECK(watered.up[105] > thirsty.up[105] + 0.1);
  // A stated amount counts like rain: 12.7 mm a week is full water.
  SeasonWeather stated = dry;
  const EmergenceCurve amount = run_gated_clock(stated.drivers({false, 12.7}), central_clock());
  CHECK(amount.up[105] >= watered.up[105]);
}

TEST_CASE("the course of either member ends at its own total in both hemispheres") {
  for (const Hemisphere hemisphere : {Hemisphere::north, Hemisphere::south}) {
    SeasonWeather weather{
        [](int day) { return 16.0 + 9.0 * std::cos(2.0 * std::numbers::pi * (day - 35) / 365.25); },
        hemisphere};
    const EmergenceCurve clock = run_gated_clock(weather.drivers({true, 0.0}), central_clock());
    CHECK(clock.up.back() == Approx(1.0));
    CHECK(clock.main_wave_over.has_value());
    const ReleaseParameters release{.ceiling = {3.0, 5.0, 15.0, 20.0, 25.0},
                                    .ceiling_shift_c = 0.0,
                                    .release_from_day = 41,
                                    .base = Temperature::from_celsius(2.6),
                                    .half_up = DegreeDays::from_celsius_days(116.0),
                                    .steepness = 4,
                                    .dry_speed = 0.15,
                                    .full_water = Rain::from_mm(12.7),
                                    .unknown_rain_speed = 0.75,
                                    .autumn_share = 0.76,
                                    .winter_from_day = 137,
                                    .winter_to_day = 328,
                                    .winter_soil = Temperature::from_celsius(5.0)};
    const EmergenceCurve released = run_release_by_cooling(weather.drivers({true, 0.0}), release);
    CHECK(released.up.back() == Approx(1.0));
    // After 5 November 24 percent are still to come (Kaminski & Dernoeden 2007), less what the wave has left
    // over.
    CHECK(released.up[137] < 0.77);
    for (std::size_t d = 1; d < released.up.size(); ++d) CHECK(released.up[d] >= released.up[d - 1]);
  }
}

TEST_CASE("where soil never cools to the crossing nothing is claimed to emerge by the hundredth day") {
  SeasonWeather weather{[](int) { return 28.0; }};
  const EmergenceCurve curve = run_gated_clock(weather.drivers({true, 0.0}), central_clock());
  CHECK(curve.up[100] < 0.3);  // an even trickle toward its own total, no wave
}
