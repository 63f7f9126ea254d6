// SPDX-License-Identifier: MIT
#include "records/entries/measure.hpp"

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "core/text.hpp"

using namespace soilclock;
using namespace soilclock::records;

TEST_CASE("values with a unit come out in the kept unit") {
  // By the definitions of the units: 0 C = 32 F, inch 25.4 mm, mile 1609.344 m, foot 0.3048 m, knot 1852 m/h.
  CHECK(*parse_measure("32F", Quantity::temperature, "") == 0.0);
  CHECK(*parse_measure("55 f", Quantity::temperature, "") == 12.7778);
  CHECK(*parse_measure("-40F", Quantity::temperature, "") == -40.0);
  CHECK(*parse_measure("+13.25\u00b0"
                       "C",
                       Quantity::temperature, "") == 13.25);
  CHECK(*parse_measure("0.25in", Quantity::water, "") == 6.35);
  CHECK(*parse_measure("2 in", Quantity::depth, "") == 5.08);
  CHECK(*parse_measure("50mm", Quantity::depth, "") == 5.0);
  CHECK(*parse_measure("10mph", Quantity::speed, "") == 4.4704);
  CHECK(*parse_measure("36 km/h", Quantity::speed, "") == 10.0);
  CHECK(*parse_measure("3.6kn", Quantity::speed, "") == 1.852);
  CHECK(*parse_measure("1ft2", Quantity::area, "") == 0.092903);
  CHECK(*parse_measure("40%", Quantity::percent, "") == 40.0);
}

TEST_CASE("a value in the kept unit stays as written") {
  CHECK(*parse_measure("12.123456789", Quantity::temperature, "C") == 12.123456789);
  CHECK(*parse_measure("1e-05 mm", Quantity::water, "") == 1e-05);
}

TEST_CASE("what was noted in another unit comes back in it as it was written") {
  const auto back = [](double written, const std::string& unit, Quantity quantity) {
    const std::string text = fmt::format("{}{}", written, unit);
    CAPTURE(text);
    CHECK(lowered(other_unit(text, quantity, "")) == lowered(unit));
    CHECK(in_unit(parse_measure(text, quantity, "").value(), quantity, unit).value() ==
          Approx(written).margin(1e-9));
  };
  for (int tenths = -400; tenths <= 1400; ++tenths) back(tenths / 10.0, "F", Quantity::temperature);
  for (int hundredths = 1; hundredths <= 400; ++hundredths) {
    back(hundredths / 100.0, "in", Quantity::depth);
    back(hundredths / 100.0, "in", Quantity::water);
    back(hundredths / 10.0, "mph", Quantity::speed);
    back(hundredths / 10.0, "kn", Quantity::speed);
    back(hundredths / 10.0, "km/h", Quantity::speed);
    back(hundredths / 10.0, "ft2", Quantity::area);
  }
  CHECK(other_unit("62", Quantity::temperature, "f") == "F");
  CHECK(other_unit("17C", Quantity::temperature, "f").empty());
  CHECK(other_unit("17", Quantity::temperature, "C").empty());
  CHECK(other_unit("NW", Quantity::direction, "").empty());
  CHECK_FALSE(in_unit(5.0, Quantity::depth, "F"));
  CHECK_FALSE(in_unit(5.0, Quantity::depth, ""));
}

TEST_CASE("a wind direction is a compass point or degrees") {
  CHECK(*parse_measure("N", Quantity::direction, "") == 0.0);
  CHECK(*parse_measure("ese", Quantity::direction, "") == 112.5);
  CHECK(*parse_measure("NNW", Quantity::direction, "") == 337.5);
  CHECK(*parse_measure("315", Quantity::direction, "degrees") == 315.0);
  CHECK_FALSE(parse_measure("upwind", Quantity::direction, ""));
}

TEST_CASE("a number without its unit is refused unless the heading says it") {
  const auto bare = parse_measure("55", Quantity::temperature, "");
  REQUIRE_FALSE(bare);
  CHECK(bare.error().what == "the unit is missing");
  CHECK(bare.error().expected.find("55F") != std::string::npos);
  CHECK(*parse_measure("50", Quantity::temperature, "f") == 10.0);
  CHECK(*parse_measure("50F", Quantity::temperature, "C") == 10.0);
}

TEST_CASE("what is no number or has a foreign unit is refused") {
  for (const char* text : {"", "warm", "nan C", "inf C", "1e999C", "12,5C", "5cm", "C", "5 5 C", "--5C"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_measure(text, Quantity::temperature, ""));
  }
}

TEST_CASE("a number that its conversion makes endless is refused") {
  for (const char* text : {"-1e308in", "1.7e308ft2", "1e305kn", "1.7e308F"}) {
    CAPTURE(text);
    for (const Quantity quantity :
         {Quantity::water, Quantity::area, Quantity::speed, Quantity::temperature}) {
      const auto measure = parse_measure(text, quantity, "");
      CHECK((!measure || std::isfinite(*measure)));
    }
  }
  CHECK_FALSE(parse_measure("-1e308in", Quantity::water, ""));
}

TEST_CASE("headings end in the unit of their column") {
  CHECK(unit_of_heading("f", Quantity::temperature) == "f");
  CHECK(unit_of_heading("m_per_s", Quantity::speed) == "m/s");
  CHECK(unit_of_heading("percent", Quantity::percent) == "%");
  CHECK_FALSE(unit_of_heading("mm", Quantity::temperature));
}
