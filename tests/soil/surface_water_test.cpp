// SPDX-License-Identifier: MIT
#include "soil/surface_water.hpp"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "soil/evapotranspiration.hpp"
#include "soil_files.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::soil;

namespace {

/// A layer of 5 cm that holds 10 mm at field capacity and keeps 1 mm from the air.
SurfaceWaterRules round_rules() {
  SurfaceWaterRules rules;
  rules.textures.fill({0.4, WaterPotential::from_mpa(-0.01), 2.0});
  rules.layer = Depth::from_cm(5.0);
  rules.field_capacity = WaterPotential::from_mpa(-0.04);  // 0.4 / sqrt(4) = 0.2 of the volume
  rules.wilting = WaterPotential::from_mpa(-1.0);          // 0.4 / sqrt(100) = 0.04 of it
  rules.driest_share = 0.5;
  rules.demand_share = 0.5;
  rules.agreement = 0.1;
  return rules;
}

constexpr double latitude = 36.0;
const Day june_1 = make_day(2021, 6, 1);

/// The course under days of 15 to 25 C with the rains given; below 0 stands for unknown.
std::vector<WaterPotential> course_of(const SurfaceWaterRules& rules, const std::vector<double>& rain_mm,
                                      double watering_mm = 0.0) {
  const std::vector<Temperature> mean(rain_mm.size(), Temperature::from_celsius(20.0));
  const std::vector<Temperature> high(rain_mm.size(), Temperature::from_celsius(25.0));
  std::vector<Rain> rain;
  for (const double mm : rain_mm) rain.push_back(mm < 0.0 ? Rain::unknown() : Rain::from_mm(mm));
  return surface_water(rules, Texture::loam, {june_1, latitude, mean, high, rain},
                       Rain::from_mm(watering_mm));
}

double demand_mm(int day) {
  return 0.5 * reference_evapotranspiration(Temperature::from_celsius(20.0),
                                            TemperatureDelta::from_kelvin(10.0), latitude,
                                            day_of_year(june_1 + Days{day}))
                   .mm();
}

/// The potential of the round layer with so many millimeters above its driest state.
double round_potential(double held_mm) { return -0.01 * std::pow((1.0 + held_mm) / 50.0 / 0.4, -2.0); }

}  // namespace

TEST_CASE("the retention curve of loam, worked by hand") {
  const RetentionCurve loam = tests::surface_water_rules().curve(Texture::loam);
  // Air entry 47.8 cm of water are 0.004688 MPa; half of saturation holds 2^5.39 = 41.93 times as hard.
  CHECK(loam.potential_at(0.451).mpa() == Approx(-0.004688).margin(1e-6));
  CHECK(loam.potential_at(0.2255).mpa() == Approx(-0.19657).margin(1e-4));
  CHECK(loam.water_at(WaterPotential::from_mpa(-0.19657)) == Approx(0.2255).margin(1e-4));
  CHECK(loam.water_at(WaterPotential::from_mpa(0.0)) == 0.451);
}

TEST_CASE("clay holds more water at wilting than sand, and every texture less than at field capacity") {
  const SurfaceWaterRules rules = tests::surface_water_rules();
  CHECK(rules.curve(Texture::clay).water_at(rules.wilting) >
        3.0 * rules.curve(Texture::sand).water_at(rules.wilting));
  for (const RetentionCurve& curve : rules.textures)
    CHECK(curve.water_at(rules.wilting) < curve.water_at(rules.field_capacity));
}

TEST_CASE("rain fills the layer, the rest is lost, and the air dries it by what is left") {
  const auto course = course_of(round_rules(), {30.0, 0.0, 2.0});
  double held = 9.0 * std::exp(-demand_mm(0) / 9.0);
  CHECK(course.at(0).mpa() == Approx(round_potential(held)));
  held *= std::exp(-demand_mm(1) / 9.0);
  CHECK(course.at(1).mpa() == Approx(round_potential(held)));
  held = (held + 2.0) * std::exp(-demand_mm(2) / 9.0);
  CHECK(course.at(2).mpa() == Approx(round_potential(held)));
}

TEST_CASE("watering counts as rain of every day") {
  CHECK(course_of(round_rules(), {30.0, 1.0, 1.0}).back() ==
        course_of(round_rules(), {29.0, 0.0, 0.0}, 1.0).back());
}

TEST_CASE("what rests on rain or a start that nobody knows is not known, until rain fills the layer") {
  const auto course = course_of(round_rules(), {0.0, 30.0, 0.0, -1.0, 0.0, 30.0});
  std::vector<bool> known;
  for (const WaterPotential& one : course) known.push_back(one.known());
  CHECK(known == std::vector<bool>{false, true, true, false, false, true});
  // A long drought dries what was full as far as what was empty.
  CHECK(course_of(round_rules(), std::vector<double>(60, 0.0)).back().known());
}

TEST_CASE("a layer stays between its driest state and field capacity") {
  rc::prop("whatever the rain", [] {
    const SurfaceWaterRules rules = tests::surface_water_rules();
    std::vector<double> rain;
    for (const int mm : *rc::gen::container<std::vector<int>>(90, rc::gen::inRange(-1, 40)))
      rain.push_back(mm > 30 ? mm : std::min(mm, 0));
    const double driest = rules.driest_share * rules.curve(Texture::loam).water_at(rules.wilting);
    for (const WaterPotential& one : course_of(rules, rain)) {
      if (!one.known()) continue;
      RC_ASSERT(one.mpa() <= rules.field_capacity.mpa() + 1e-12);
      RC_ASSERT(one.mpa() >= rules.curve(Texture::loam).potential_at(driest).mpa() - 1e-9);
    }
  });
}

TEST_CASE("a file of surface water with a slip is refused at its place") {
  const auto place = [](const std::string& part, const std::string& by) {
    const std::string file = "models/soil/surface_water.json";
    const auto read = read_surface_water_rules(tests::exchanged(tests::source_text(file), part, by), file);
    REQUIRE_FALSE(read);
    return read.error().where.json_pointer;
  };
  CHECK(place("\"air_entry\": {\"value\": -12.1", "\"air_entry\": {\"value\": 12.1") ==
        "/textures/sand/air_entry/value");
  CHECK(place("\"air_entry\": {\"value\": -40.5, \"unit\": \"cm of water\"",
              "\"air_entry\": {\"value\": -40.5, \"unit\": \"MPa\"") == "/textures/clay/air_entry/unit");
  CHECK(place("\"sandy_clay\"", "\"sandy clay\"") == "/textures/sandy_clay");
  CHECK(place("\"layer\": {\"value\": 4", "\"layer\": {\"value\": 40") == "/layer/value");
  CHECK(place("\"field_capacity\": {\"value\": -0.033", "\"field_capacity\": {\"value\": -0.004") ==
        "/textures/silt_loam/air_entry");
}
