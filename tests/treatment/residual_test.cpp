// SPDX-License-Identifier: MIT
#include "treatment/residual.hpp"

#include <rapidcheck/catch.h>

#include <cmath>

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

TEST_CASE("the half-life multiplier follows the Arrhenius table from 5 to 30 C") {
  // Worked by hand from E = 65.4 kJ/mol and 20 C as reference; printed to two figures.
  const std::vector<std::pair<double, double>> table{{5, 4.3},   {10, 2.6},  {15, 1.6}, {20, 1.0},
                                                     {25, 0.64}, {27, 0.53}, {30, 0.41}};
  for (const auto& [celsius, multiplier] : table) {
    INFO(celsius << " C");
    CHECK(1.0 / decay_factor(Temperature::from_celsius(celsius)) == Approx(multiplier).epsilon(0.02));
  }
}

TEST_CASE("three weeks at 27 C cost as much residual as about twelve weeks at 12 C") {
  const double hot = 3.0 * decay_factor(Temperature::from_celsius(27.0));
  const double cool = 12.0 * decay_factor(Temperature::from_celsius(12.0));
  CHECK(hot == Approx(cool).epsilon(0.1));
}

TEST_CASE(
    "measured turf half-lives and the 2.5 half-lives rule give the weeks of control that were measured") {
  // Schleicher et al. 1995, Weed Science 43:140-148: 59 d with a half-life of 23 d, 87 d with 35 d.
  CHECK(effective_half_life_days(59.0 / 7.0) == Approx(23.0).margin(1.0));
  CHECK(effective_half_life_days(87.0 / 7.0) == Approx(35.0).margin(1.0));
}

TEST_CASE("nine tenths of the effect hold while more than 2.5 half-lives are not over") {
  CHECK(efficacy(std::exp2(-2.5)) == Approx(0.9 * 0.96).margin(0.005));
  CHECK(efficacy(1.0) == Approx(0.96).margin(0.001));
  CHECK(efficacy(0.0) == 0.0);
  CHECK(efficacy(-1.0) == 0.0);
}

TEST_CASE("a dose in soil of 20 C is halved after one half-life and not yet there before its day") {
  const std::vector<Temperature> soil(100, Temperature::from_celsius(20.0));
  const ResidualClock clock{soil, 10.0};  // half-life 28 d
  CHECK(clock.left(10, 10) == 1.0);
  CHECK(clock.left(10, 38) == Approx(0.5));
  CHECK(clock.left(10, 9) == 0.0);
  CHECK(clock.left(0, 99) == Approx(std::exp2(-99.0 / 28.0)));
}

TEST_CASE("the shortest residual in the hottest soil for a whole year stays a number") {
  const std::vector<Temperature> soil(366, Temperature::from_celsius(45.0));
  const ResidualClock clock{soil, 1.0};
  CHECK(clock.left(0, 365) >= 0.0);
  CHECK(clock.left(300, 365) <= 1.0);
  CHECK_THROWS_AS(clock.left(300, 366), std::out_of_range);
}

TEST_CASE("rain activates on the day its sum reaches a quarter inch, and a dry fortnight never does") {
  DailySeries<Rain> rain{{make_day(2025, 9, 1), make_day(2025, 10, 1)}};
  const Day applied = make_day(2025, 9, 3);
  CHECK(!days_until_activated(rain, applied, false));
  CHECK(days_until_activated(rain, applied, true) == 1);
  rain.set(make_day(2025, 9, 2), Rain::from_mm(30.0), Quality::measured);
  CHECK(!days_until_activated(rain, applied, false));
  rain.set(make_day(2025, 9, 5), Rain::from_mm(4.0), Quality::measured);
  rain.set(make_day(2025, 9, 8), Rain::from_mm(3.0), Quality::measured);
  CHECK(days_until_activated(rain, applied, false) == 5);
}

TEST_CASE("residual laws: warmer decays faster, more dose never kills less") {
  rc::prop("warmer soil decays faster", [] {
    const double celsius = *rc::gen::inRange(-5, 40);
    RC_ASSERT(decay_factor(Temperature::from_celsius(celsius + 1.0)) >
              decay_factor(Temperature::from_celsius(celsius)));
  });
  rc::prop("more dose never kills less and never more than 96 percent", [] {
    const double dose = *rc::gen::inRange(0, 3000) / 1000.0;
    RC_ASSERT(efficacy(dose + 0.01) >= efficacy(dose));
    RC_ASSERT(efficacy(dose) <= 0.96);
  });
}

TEST_CASE("the residual file holds the numbers the rule is built with") {
  const ResidualRule shipped = taken(read_residual_rule(model_text("residual.json"), "residual.json"));
  const ResidualRule built_in;
  CHECK(shipped.activation_energy_j_per_mol == built_in.activation_energy_j_per_mol);
  CHECK(shipped.half_lives_of_use == built_in.half_lives_of_use);
  CHECK(shipped.greatest_efficacy == built_in.greatest_efficacy);
  CHECK(shipped.dose_of_half_efficacy == built_in.dose_of_half_efficacy);
  CHECK(shipped.spent_below == built_in.spent_below);
  CHECK(shipped.activating_water.mm() == Approx(built_in.activating_water.mm()));
  CHECK(shipped.lost_without_water_after_days == built_in.lost_without_water_after_days);
}
