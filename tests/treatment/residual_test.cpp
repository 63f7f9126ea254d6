// SPDX-License-Identifier: MIT
#include "treatment/residual.hpp"

#include <rapidcheck/catch.h>

#include <cmath>

#include "model_files.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

const ResidualRule& rule() {
  static const ResidualRule shipped = shipped_residual();
  return shipped;
}

double faster(double celsius, double energy_j_per_mol) {
  return decay_factor(Temperature::from_celsius(celsius), energy_j_per_mol, rule());
}

constexpr double european_median = 65400.0;  // J/mol

}  // namespace

TEST_CASE("the half-life multiplier follows the Arrhenius table from 5 to 30 C") {
  // Worked by hand from E = 65.4 kJ/mol and 20 C as reference; printed to two figures.
  const std::vector<std::pair<double, double>> table{{5, 4.3},   {10, 2.6},  {15, 1.6}, {20, 1.0},
                                                     {25, 0.64}, {27, 0.53}, {30, 0.41}};
  for (const auto& [celsius, multiplier] : table) {
    INFO(celsius << " C");
    CHECK(1.0 / faster(celsius, european_median) == Approx(multiplier).epsilon(0.02));
  }
}

TEST_CASE("three weeks at 27 C cost as much residual as about twelve weeks at 12 C") {
  CHECK(3.0 * faster(27.0, european_median) == Approx(12.0 * faster(12.0, european_median)).epsilon(0.1));
}

TEST_CASE("the low end of the activation energy is the decay measured in a greens mix at 20 and 35 C") {
  // Hong and Smith 1996: half-lives of dithiopyr of 68.8 d at 20 C and 39.2 d at 35 C.
  const double least = rule().activation_energy_least_j_per_mol;
  CHECK(faster(35.0, least) / faster(20.0, least) == Approx(68.8 / 39.2).epsilon(0.02));
  CHECK(rule().activation_energy_most_j_per_mol == european_median);
}

TEST_CASE(
    "measured turf half-lives and the 2.5 half-lives rule give the weeks of control that were measured") {
  // Schleicher et al. 1995, Weed Science 43:140-148: 59 d with a half-life of 23 d, 87 d with 35 d.
  CHECK(effective_half_life_days(59.0 / 7.0, rule()) == Approx(23.0).margin(1.0));
  CHECK(effective_half_life_days(87.0 / 7.0, rule()) == Approx(35.0).margin(1.0));
}

TEST_CASE("nine tenths of the effect hold while more than 2.5 half-lives are not over") {
  CHECK(dose_effect(std::exp2(-rule().half_lives_of_use), rule()) == Approx(0.9).margin(0.005));
  CHECK(dose_effect(1.0, rule()) == Approx(1.0).margin(0.001));
  CHECK(dose_effect(0.0, rule()) == 0.0);
  CHECK(dose_effect(-1.0, rule()) == 0.0);
  CHECK(dose_effect(rule().spent_below, rule()) == Approx(0.9).margin(0.01));
}

TEST_CASE("a dose in soil of 20 C is halved after one half-life and not yet there before its day") {
  const std::vector<Temperature> soil(100, Temperature::from_celsius(20.0));
  const ResidualClock clock{soil, 10.0, european_median, rule()};  // half-life 28 d
  CHECK(clock.left(10, 10) == 1.0);
  CHECK(clock.left(10, 38) == Approx(0.5));
  CHECK(clock.left(10, 9) == 0.0);
  CHECK(clock.left(0, 99) == Approx(std::exp2(-99.0 / 28.0)));
}

TEST_CASE("the shortest residual in the hottest soil for a whole year stays a number") {
  const std::vector<Temperature> soil(366, Temperature::from_celsius(45.0));
  const ResidualClock clock{soil, 1.0, european_median, rule()};
  CHECK(clock.left(0, 365) >= 0.0);
  CHECK(clock.left(300, 365) <= 1.0);
  CHECK_THROWS_AS(clock.left(300, 366), std::out_of_range);
}

TEST_CASE("rain activates on the day its sum reaches a quarter inch, and a dry fortnight never does") {
  DailySeries<Rain> rain{{make_day(2025, 9, 1), make_day(2025, 10, 1)}};
  const Day applied = make_day(2025, 9, 3);
  CHECK(!days_until_activated(rain, applied, false, rule()));
  CHECK(days_until_activated(rain, applied, true, rule()) == 1);
  rain.set(make_day(2025, 9, 2), Rain::from_mm(30.0), Quality::measured);
  CHECK(!days_until_activated(rain, applied, false, rule()));
  rain.set(make_day(2025, 9, 5), Rain::from_mm(4.0), Quality::measured);
  rain.set(make_day(2025, 9, 8), Rain::from_mm(3.0), Quality::measured);
  CHECK(days_until_activated(rain, applied, false, rule()) == 5);
}

TEST_CASE("residual laws: warmer decays faster, more dose never kills less") {
  rc::prop("warmer soil decays faster, the more so the higher the activation energy", [] {
    const double celsius = *rc::gen::inRange(-5, 40);
    const double energy = 1000.0 * *rc::gen::inRange(20, 80);
    RC_ASSERT(faster(celsius + 1.0, energy) > faster(celsius, energy));
    RC_ASSERT(faster(celsius + 1.0, energy + 1000.0) / faster(celsius, energy + 1000.0) >
              faster(celsius + 1.0, energy) / faster(celsius, energy));
  });
  rc::prop("more dose never kills less and never more than all", [] {
    const double dose = *rc::gen::inRange(0, 3000) / 1000.0;
    RC_ASSERT(dose_effect(dose + 0.01, rule()) >= dose_effect(dose, rule()));
    RC_ASSERT(dose_effect(dose, rule()) <= 1.0);
  });
}

TEST_CASE("a residual file with a mistake does not load and the message says where") {
  const auto place = [](const std::string& part, const std::string& by) {
    const auto result =
        read_residual_rule(tests::exchanged(model_text("residual.json"), part, by), "residual.json");
    REQUIRE(!result);
    INFO(describe(result.error()));
    CHECK(result.error().family == Family::request);
    return result.error().where.json_pointer;
  };
  CHECK(place("\"least\": 28000", "\"least\": 70000") == "/activation_energy/most");
  CHECK(place("\"J/mol\"", "\"kJ/mol\"") == "/activation_energy/unit");
  CHECK(place("\"value\": 2.5", "\"value\": 0") == "/half_lives_of_use/value");
  CHECK(place("\"spent_below\"", "\"spent_under\"") == "/spent_below");
}
