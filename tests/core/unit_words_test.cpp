// SPDX-License-Identifier: MIT
// Values in sentences, in either system of units.
#include <catch2/catch.hpp>

#include "core/unit_words.hpp"

using namespace soilclock;

TEST_CASE("a value is written in the reader's units") {
  const Temperature soil = Temperature::from_celsius(18.9);
  CHECK(temperature_words(soil, false) == "18.9 C");
  CHECK(temperature_words(soil, true) == "66.0 F");
  CHECK(whole_degree_words(Temperature::from_fahrenheit(55.0), true) == "55 F");
  CHECK(water_words(Rain::from_mm(9.1), false) == "9.1 mm");
  CHECK(water_words(Rain::from_mm(12.7), true) == "0.50 in");
  CHECK(depth_words(Depth::from_cm(5.0), false) == "5 cm");
  CHECK(depth_words(Depth::from_cm(5.0), true) == "2 in");
  CHECK(depth_words(Depth::from_cm(2.5), true) == "1 in");
  CHECK(depth_words(Depth::from_cm(7.0), true) == "2.8 in");
  CHECK(length_words(3.0, false) == "3 m");
  CHECK(length_words(3.0, true) == "10 ft");
  CHECK(area_words(0.1, false) == "0.1 square meters");
  CHECK(area_words(0.1, true) == "1.1 square feet");
  CHECK(wind_words(4.0, false) == "4 m/s");
  CHECK(wind_words(4.0, true) == "9 mph");
}

TEST_CASE("a difference scales without the 32, and carries no sign") {
  const TemperatureDelta colder = TemperatureDelta::from_kelvin(-1.5);
  CHECK(difference_words(colder, false) == "1.5 C");
  CHECK(difference_words(colder, true) == "2.7 F");
  CHECK(degrees_apart_words(TemperatureDelta::from_kelvin(20.0), true) == "36 degrees");
}
