// SPDX-License-Identifier: MIT
#include "soil/conduction.hpp"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace soilclock;
using namespace soilclock::soil;

TEST_CASE("damping depth, amplitude and lag follow the conduction table") {
  // Derived: T = e^(-z/d) sin(wt - z/d) worked separately for each diffusivity.
  struct Row {
    double diffusivity, daily_cm, annual_m, left5, lag5, left10, lag10, annual_lag10_days;
  };
  const Row rows[]{{0.2e-6, 7.42, 1.417, 0.510, 2.58, 0.260, 5.15, 4.10},
                   {0.4e-6, 10.49, 2.005, 0.621, 1.82, 0.385, 3.64, 2.90},
                   {0.5e-6, 11.73, 2.241, 0.653, 1.63, 0.426, 3.26, 2.59},
                   {0.7e-6, 13.87, 2.652, 0.697, 1.38, 0.486, 2.75, 2.19},
                   {0.9e-6, 15.73, 3.007, 0.728, 1.21, 0.530, 2.43, 1.93}};
  const Depth five = Depth::from_cm(5.0);
  const Depth ten = Depth::from_cm(10.0);
  for (const Row& row : rows) {
    const Depth daily = damping_depth(row.diffusivity, 1.0);
    const Depth annual = damping_depth(row.diffusivity, 365.25);
    CAPTURE(row.diffusivity);
    CHECK(daily.cm() == Approx(row.daily_cm).margin(0.006));
    CHECK(annual.m() == Approx(row.annual_m).margin(0.0011));
    CHECK(amplitude_left(five, daily) == Approx(row.left5).margin(6e-4));
    CHECK(daily_lag_hours(five, daily) == Approx(row.lag5).margin(6e-3));
    CHECK(amplitude_left(ten, daily) == Approx(row.left10).margin(6e-4));
    CHECK(daily_lag_hours(ten, daily) == Approx(row.lag10).margin(6e-3));
    CHECK(ten.m() / annual.m() * 365.25 / 6.283185307 == Approx(row.annual_lag10_days).margin(6e-3));
  }
}

TEST_CASE("the wave solves the heat equation") {
  // Second route: a fine explicit scheme driven at the surface for twelve days, then compared over one day.
  const double diffusivity = 0.5e-6;
  const double dz = 0.005;
  const double dt = 20.0;
  std::vector<double> ground(161, 0.0);
  const auto surface = [](double hour) {
    return 6.0 * std::cos(6.283185307 * (hour - warmest_surface_hour) / 24.0);
  };
  const DailySwing swing = daily_swing(TemperatureDelta::from_kelvin(12.0), Depth::from_cm(5.0), diffusivity);
  double worst = 0.0;
  for (int step = 0; step * dt < 13.0 * 86400.0; ++step) {
    const double hour = std::fmod(step * dt / 3600.0, 24.0);
    ground[0] = surface(hour);
    if (step * dt > 12.0 * 86400.0) {
      worst = std::max(worst, std::abs(ground[10] - swing.at(hour).kelvin()));
    }
    std::vector<double> next = ground;
    for (std::size_t i = 1; i + 1 < ground.size(); ++i) {
      next[i] += diffusivity * dt / (dz * dz) * (ground[i - 1] - 2.0 * ground[i] + ground[i + 1]);
    }
    ground = next;
  }
  CHECK(worst < 0.02);
}

TEST_CASE("a morning reading under turf with a range of 12 C is two to four degrees below its day") {
  const DailySwing swing = daily_swing(TemperatureDelta::from_kelvin(12.0), Depth::from_cm(5.0));
  CHECK(swing.half_range.kelvin() == Approx(3.92).margin(0.01));
  const auto morning = daily_mean_from_reading(Temperature::from_celsius(12.0), 7.0, swing);
  CHECK((morning.mean - Temperature::from_celsius(12.0)).kelvin() > 2.0);
  CHECK((morning.mean - Temperature::from_celsius(12.0)).kelvin() < 3.93);
  CHECK(morning.extra_variance_k2 > 0.5);
}

TEST_CASE("taking the swing out undoes putting it in, and a quiet day adds no error") {
  rc::prop("inverse(value(x)) = x", [] {
    const double mean = *rc::gen::inRange(-100, 400) / 10.0;
    const double hour = *rc::gen::inRange(0, 240) / 10.0;
    const auto range = TemperatureDelta::from_kelvin(*rc::gen::inRange(0, 250) / 10.0);
    const DailySwing swing = daily_swing(range, Depth::from_cm(*rc::gen::inRange(25, 150) / 10.0));
    const auto back = daily_mean_from_reading(Temperature::from_celsius(mean) + swing.at(hour), hour, swing);
    RC_ASSERT(std::abs(back.mean.celsius() - mean) < 1e-9);
    RC_ASSERT(back.extra_variance_k2 >= 0.0);
    RC_ASSERT(range.kelvin() > 0.0 || back.extra_variance_k2 == 0.0);
  });
}
