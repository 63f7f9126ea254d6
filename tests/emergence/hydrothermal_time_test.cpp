// SPDX-License-Identifier: MIT
// Warmth of moist days by hand, and the models that count it over made-up seasons.
#include "emergence/hydrothermal_time.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/drawn_models.hpp"
#include "support/season_weather.hpp"

using namespace soilclock;
using namespace soilclock::emergence;
using tests::run_center;
using tests::shipped_model;

namespace {

const Place legnaro{45.35, 11.95, {}};
constexpr int february_1 = 31;

/// Large crabgrass as read: base 8.4 C and -0.83 MPa, the limit rising by 0.5 MPa a degree above 26 C.
HydrothermalParameters crabgrass() {
  return hydrothermal_parameters(central_parameters(shipped_model("DIGSA_hydrothermal")));
}

WaterPotential mpa(double value) { return WaterPotential::from_mpa(value); }

/// The sum after each day of the season; the lead-in before it is warm and wet.
std::vector<double> sums(const std::vector<double>& celsius, const std::vector<WaterPotential>& water,
                         int from_day = 0) {
  std::vector<Temperature> soil(lead_in_days, Temperature::from_celsius(20.0));
  std::vector<WaterPotential> potential(lead_in_days, mpa(-0.01));
  for (const double one : celsius) soil.push_back(Temperature::from_celsius(one));
  potential.insert(potential.end(), water.begin(), water.end());
  std::vector<double> result;
  for (const DegreeDays& sum : hydrothermal_sum(soil, potential, crabgrass(), from_day))
    result.push_back(sum.celsius_days());
  return result;
}

void check_near(const std::vector<double>& found, const std::vector<double>& expected) {
  REQUIRE(found.size() == expected.size());
  for (std::size_t i = 0; i < found.size(); ++i) CHECK(found[i] == Approx(expected[i]).margin(1e-9));
}

testing::SeasonWeather steady_spring(double celsius) {
  return testing::SeasonWeather{[=](int) { return celsius; }, Hemisphere::north, SeasonKind::summer};
}

EmergenceCurve run_with(const std::string& id, const testing::SeasonWeather& weather, double water_mpa) {
  const std::vector<WaterPotential> water(weather.drivers().soil.size(), mpa(water_mpa));
  SeasonDrivers drivers = weather.drivers();
  drivers.surface_water = water;
  return run_center(shipped_model(id), drivers, legnaro);
}

}  // namespace

TEST_CASE("warmth counts at the limit of moisture and not below it") {
  check_near(sums({18.4, 18.4, 18.4, 7.0}, {mpa(-0.83), mpa(-0.84), mpa(-0.1), mpa(-0.1)}),
             {10.0, 10.0, 20.0, 20.0});
}

TEST_CASE("warm seed asks for moister soil, up to saturation") {
  CHECK(driest_for(crabgrass(), Temperature::from_celsius(26.0)).mpa() == Approx(-0.83));
  CHECK(driest_for(crabgrass(), Temperature::from_celsius(27.0)).mpa() == Approx(-0.33));
  CHECK(driest_for(crabgrass(), Temperature::from_celsius(40.0)).mpa() == 0.0);
  check_near(sums({27.0, 27.0, 28.4}, {mpa(-0.4), mpa(-0.3), mpa(-0.01)}), {0.0, 18.6, 18.6});
}

TEST_CASE("the sum starts on its day, and days of unknown water count three quarters") {
  check_near(sums({18.4, 18.4, 18.4}, {mpa(-0.1), mpa(-0.1), mpa(-0.1)}, 1), {0.0, 10.0, 20.0});
  check_near(sums({18.4, 18.4, 18.4}, {mpa(-0.1), WaterPotential::unknown()}), {10.0, 17.5, 25.0});
}

TEST_CASE("large crabgrass at 18.4 C in moist soil is half up as the formula says") {
  // Ten degree-days a day; exp(-10.1 exp(-0.008 H)) is one half at H = (ln 10.1 - ln ln 2) / 0.008 = 334.9.
  const EmergenceCurve curve = run_with("DIGSA_hydrothermal", steady_spring(18.4), -0.05);
  CHECK(curve.at(february_1 - 1) == 0.0);
  CHECK(curve.first_day_reaching(0.5) == february_1 + 33);
  CHECK(100.0 * curve.at(february_1 + 9) == Approx(100.0 * std::exp(-10.1 * std::exp(-0.8))).margin(0.01));
}

TEST_CASE("nothing comes up all season in dry soil") {
  for (const std::string id :
       {"DIGSA_hydrothermal", "ELEIN_hydrothermal", "SETPU_hydrothermal", "SETVI_hydrothermal"}) {
    CAPTURE(id);
    const EmergenceCurve curve = run_with(id, steady_spring(20.0), -1.5);
    CHECK(curve.at(364) == 0.0);
    CHECK(!curve.main_wave_over);
  }
}

TEST_CASE("a model of hydrothermal time with a slip is refused at its place") {
  const auto place = [](const std::string& part, const std::string& by) {
    const std::string file = "models/emergence/SETPU_hydrothermal.json";
    std::string text = tests::source_text(file);
    // Without the limits of the draws, which refuse some of these before the form is looked at.
    for (const std::string limit : {", \"most\": -0.2", ", \"least\": 1.5", ", \"least\": 0.002"})
      text = tests::exchanged(text, limit, "");
    const auto read = read_emergence_model(tests::exchanged(text, part, by), file);
    REQUIRE_FALSE(read);
    return read.error().where.json_pointer;
  };
  CHECK(place("\"value\": -0.69", "\"value\": 0.69") == "/parameters/base_water_potential");
  CHECK(place("\"a\": {\"value\": 4.3", "\"a\": {\"value\": -4.3") == "/parameters/a");
  CHECK(place("\"value\": 0.008", "\"value\": 0") == "/parameters/b");
  CHECK(place("\"value\": 0.13", "\"value\": -0.13") == "/parameters/water_potential_rise");
  CHECK(place("\"value\": 0.75", "\"value\": 1.75") == "/parameters/unknown_water_speed");
  CHECK(place("\"lower\": {\"value\": 8.3", "\"lower\": {\"value\": 9.3") == "/scale/lower");
  CHECK(place("\"value\": 0.008", "\"value\": 0.08") == "/check_points/0/expected");
}
