// SPDX-License-Identifier: MIT
#include "emergence/emergence_curve.hpp"

#include <catch2/catch.hpp>
#include <numeric>

#include "rapidcheck/catch.h"

using namespace soilclock;
using emergence::EmergenceCurve;

TEST_CASE("a course is 0 before its season and keeps its last value after it") {
  const EmergenceCurve curve{{0.1, 0.4, 1.0}, {}};
  CHECK(curve.at(-1) == 0.0);
  CHECK(curve.at(1) == 0.4);
  CHECK(curve.at(400) == 1.0);
  CHECK(EmergenceCurve{}.at(10) == 0.0);
}

TEST_CASE("the day of a share is the first at whose end it is up") {
  const EmergenceCurve curve{{0.0, 0.0, 0.25, 0.25, 0.8, 1.0}, {}};
  CHECK(curve.first_day_reaching(0.25) == 2);
  CHECK(curve.first_day_reaching(0.26) == 4);
  CHECK(curve.first_day_reaching(1.0) == 5);
  const EmergenceCurve nothing{{0.0, 0.0}, {}};
  CHECK(!nothing.first_day_reaching(0.01));
}

TEST_CASE("a season is measured by its own total, and one without emergence stays at nothing") {
  EmergenceCurve half{{0.0, 0.2, 0.5}, {}};
  half.close_at_own_total();
  CHECK(half.up == std::vector<double>{0.0, 0.4, 1.0});
  EmergenceCurve nothing{{0.0, 0.0}, {}};
  nothing.close_at_own_total();  // no division by nothing
  CHECK(nothing.up == std::vector<double>{0.0, 0.0});
}

TEST_CASE("laws of courses") {
  rc::prop("the day found for a share has it, and the day before has not",
           [](std::vector<unsigned char> steps) {
             EmergenceCurve curve;
             double sum = 0.0;
             for (const unsigned char step : steps) curve.up.push_back(sum += step);
             curve.close_at_own_total();
             const double share = *rc::gen::inRange(1, 1001) / 1000.0;
             const auto day = curve.first_day_reaching(share);
             RC_ASSERT(day.has_value() == (sum > 0.0));
             if (day) RC_ASSERT(curve.at(*day) >= share && curve.at(*day - 1) < share);
           });
}
