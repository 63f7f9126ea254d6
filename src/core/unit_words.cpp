// SPDX-License-Identifier: MIT
#include "core/unit_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/number_text.hpp"
#include "core/units.hpp"

namespace soilclock {

namespace {

double in_units(Temperature temperature, bool us_units) {
  return us_units ? temperature.fahrenheit() : temperature.celsius();
}

double size_of(TemperatureDelta difference, bool us_units) {
  return std::abs(us_units ? difference.fahrenheit_degrees() : difference.kelvin());
}

const char* degrees(bool us_units) { return us_units ? "F" : "C"; }

}  // namespace

std::string temperature_words(Temperature temperature, bool us_units) {
  return fmt::format("{} {}", number_text(in_units(temperature, us_units), 1), degrees(us_units));
}

std::string whole_degree_words(Temperature temperature, bool us_units) {
  return fmt::format("{} {}", number_text(in_units(temperature, us_units), 0), degrees(us_units));
}

std::string difference_words(TemperatureDelta difference, bool us_units) {
  return fmt::format("{} {}", number_text(size_of(difference, us_units), 1), degrees(us_units));
}

std::string degrees_apart_words(TemperatureDelta difference, bool us_units) {
  return fmt::format("{} degrees", number_text(size_of(difference, us_units), 0));
}

std::string water_words(Rain water, bool us_units) {
  return us_units ? fmt::format("{} in", number_text(water.inches(), 2))
                  : fmt::format("{} mm", number_text(water.mm(), 1));
}

std::string depth_words(Depth depth, bool us_units) {
  const double to_the_tenth = std::round(10.0 * (us_units ? depth.inches() : depth.cm())) / 10.0;
  return fmt::format("{:g} {}", to_the_tenth, us_units ? "in" : "cm");
}

std::string area_words(double square_meters, bool us_units) {
  const double feet = square_meters / units::m2_in_square_foot;
  return us_units ? fmt::format("{} square feet", number_text(feet, 1))
                  : fmt::format("{} square meters", number_text(square_meters, 1));
}

std::string length_words(double meters, bool us_units) {
  return us_units ? fmt::format("{} ft", number_text(meters / units::m_in_foot, 0))
                  : fmt::format("{} m", number_text(meters, 0));
}

std::string wind_words(double meters_per_second, bool us_units) {
  return us_units ? fmt::format("{} mph", number_text(meters_per_second / units::m_per_s_in_mph, 0))
                  : fmt::format("{} m/s", number_text(meters_per_second, 0));
}

}  // namespace soilclock
