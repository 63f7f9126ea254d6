// SPDX-License-Identifier: MIT
#include "core/unit_words.hpp"

#include <fmt/format.h>

#include <cmath>

namespace soilclock {

namespace {

constexpr double metres_in_a_foot = 0.3048;  // exact by definition

double in_units(Temperature temperature, bool us_units) {
  return us_units ? temperature.fahrenheit() : temperature.celsius();
}

double size_of(TemperatureDelta difference, bool us_units) {
  return std::abs(us_units ? difference.fahrenheit_degrees() : difference.kelvin());
}

const char* degrees(bool us_units) { return us_units ? "F" : "C"; }

}  // namespace

std::string temperature_words(Temperature temperature, bool us_units) {
  return fmt::format("{:.1f} {}", in_units(temperature, us_units), degrees(us_units));
}

std::string whole_degree_words(Temperature temperature, bool us_units) {
  return fmt::format("{:.0f} {}", in_units(temperature, us_units), degrees(us_units));
}

std::string difference_words(TemperatureDelta difference, bool us_units) {
  return fmt::format("{:.1f} {}", size_of(difference, us_units), degrees(us_units));
}

std::string degrees_apart_words(TemperatureDelta difference, bool us_units) {
  return fmt::format("{:.0f} degrees", size_of(difference, us_units));
}

std::string water_words(Rain water, bool us_units) {
  return us_units ? fmt::format("{:.2f} in", water.inches()) : fmt::format("{:.1f} mm", water.mm());
}

std::string depth_words(Depth depth, bool us_units) {
  const double to_the_tenth = std::round(10.0 * (us_units ? depth.inches() : depth.cm())) / 10.0;
  return fmt::format("{:g} {}", to_the_tenth, us_units ? "in" : "cm");
}

std::string length_words(double metres, bool us_units) {
  return us_units ? fmt::format("{:.0f} ft", metres / metres_in_a_foot) : fmt::format("{:.0f} m", metres);
}

}  // namespace soilclock
