// SPDX-License-Identifier: MIT
#include "core/number_text.hpp"

#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>
#include <limits>

#include "core/text.hpp"

using namespace soilclock;

TEST_CASE("a number has its decimals") {
  CHECK(number_text(12.345, 1) == "12.3");
  CHECK(number_text(-3.0, 0) == "-3");
  CHECK(number_text(0.5, 2) == "0.50");
  CHECK(number_text(std::numeric_limits<double>::quiet_NaN(), 1) == "nan");
  CHECK(signed_number_text(12.345, 1) == "+12.3");
  CHECK(signed_number_text(-3.0, 0) == "-3");
}

TEST_CASE("what rounds to nothing has no sign") {
  CHECK(number_text(-0.04, 1) == "0.0");
  CHECK(number_text(-0.0, 0) == "0");
  CHECK(number_text(-0.06, 1) == "-0.1");
  CHECK(signed_number_text(-0.04, 1) == "0.0");
  CHECK(signed_number_text(0.04, 1) == "0.0");
  rc::prop("no text of a number is a minus nought", [] {
    const double value = *rc::gen::inRange(-2000, 2000) / 1000.0;
    const int decimals = *rc::gen::inRange(0, 3);
    for (const std::string& text : {number_text(value, decimals), signed_number_text(value, decimals)}) {
      const auto read = parse_number(text);
      RC_ASSERT(read.has_value());
      RC_ASSERT(!(text.front() == '-' && *read == 0.0));
      RC_ASSERT(std::abs(*read - value) <= 0.5 * std::pow(10.0, -decimals) + 1e-12);
    }
  });
}

TEST_CASE("small counts are written out") {
  CHECK(count_words(0) == "no");
  CHECK(count_words(5) == "five");
  CHECK(count_words(10) == "ten");
  CHECK(count_words(11) == "11");
}
