// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "advice/answer/season_weeks.hpp"

using namespace soilclock;
using advice::SeasonDay;

namespace {

/// Twenty days from a Thursday on; day i has i percent up, soil at i degrees and i millimeters of rain.
std::vector<SeasonDay> days() {
  std::vector<SeasonDay> table;
  for (int i = 0; i < 20; ++i) {
    SeasonDay row;
    row.day = make_day(2026, 10, 15) + Days{i};
    row.emerged_percent = {i - 0.5, static_cast<double>(i), i + 0.5};
    row.soil_5cm = Temperature::from_celsius(i);
    row.rain = Rain::from_mm(i);
    table.push_back(row);
  }
  return table;
}

}  // namespace

TEST_CASE("a week begins with the state on Monday morning and sums its own days") {
  const auto table = days();
  const auto weeks = advice::season_weeks(table, {make_day(2026, 10, 1), make_day(2026, 12, 1)});
  REQUIRE(weeks.size() == 2);  // Oct 19 and 26; the week of Nov 2 is not whole
  CHECK(weeks[0].week_of == make_day(2026, 10, 19));
  CHECK(weeks[0].emerged_percent.middle == 3.0);  // end of Sunday Oct 18
  CHECK(weeks[0].soil_5cm.celsius() == Approx(7.0));
  CHECK(weeks[0].rain->mm() == Approx(49.0));
}

TEST_CASE("unknown rain is not a dry week and unknown soil is left out of the mean") {
  auto table = days();
  table[5].rain.reset();
  table[5].soil_5cm = Temperature::unknown();
  const auto weeks = advice::season_weeks(table, {make_day(2026, 10, 19), make_day(2026, 10, 26)});
  REQUIRE(weeks.size() == 1);
  CHECK(!weeks[0].rain);
  CHECK(weeks[0].soil_5cm.celsius() == Approx((4 + 6 + 7 + 8 + 9 + 10) / 6.0));
}
