// SPDX-License-Identifier: MIT
#include "advice/ensemble/quantiles.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "rapidcheck/catch.h"

using namespace soilclock;
using namespace soilclock::advice;

TEST_CASE("a band is the 10, 50 and 90 percent point, on a line between neighbors") {
  const Band<double> band = band_of({10, 0, 2, 1, 3, 4, 9, 8, 7, 6, 5});
  CHECK(band.low == 1.0);
  CHECK(band.middle == 5.0);
  CHECK(band.high == 9.0);
  CHECK(band_of({0.0, 1.0}).low == Approx(0.1));
  CHECK(band_of({3.0}).high == 3.0);
  CHECK(std::isnan(band_of({}).middle));
}

TEST_CASE("members that never get there count as after the end") {
  using Days = std::vector<std::optional<int>>;
  // Seven of ten reach it: early and middle are dates, late is not.
  const auto band = day_band_of(Days{{10}, {11}, {12}, {13}, {14}, {15}, {16}, {}, {}, {}});
  CHECK(band.low == 11);
  CHECK(band.middle == 15);  // half way between 14 and 15, whole days round up
  CHECK(!band.high);
  // Had they been left out, the middle would be 13.
  CHECK(day_band_of(Days{{10}, {11}, {12}, {13}, {14}, {15}, {16}}).middle == 13);
  CHECK(!day_band_of(Days{{}, {}, {}, {40}}).middle);
  CHECK(!day_band_of(Days{}).low);
}

TEST_CASE("one member short of never keeps the date that lies exactly on a member") {
  std::vector<std::optional<int>> days;
  for (int i = 0; i < 10; ++i) days.push_back(i);
  days.push_back(std::nullopt);
  CHECK(day_band_of(days).high == 9);
}

TEST_CASE("laws of bands") {
  rc::prop("low, middle and high are in order, between the extremes, and move with the values", [] {
    const auto drawn = *rc::gen::nonEmpty<std::vector<int>>();
    std::vector<double> values;
    std::vector<double> moved;
    for (const int one : drawn) {
      values.push_back(one % 1000);
      moved.push_back(one % 1000 + 7.0);
    }
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    const Band<double> band = band_of(values);
    RC_ASSERT(*least <= band.low && band.low <= band.middle);
    RC_ASSERT(band.middle <= band.high && band.high <= *most);
    RC_ASSERT(std::abs(band_of(moved).middle - band.middle - 7.0) < 1e-9);
  });
  rc::prop("a member that comes late instead of never cannot make the late end later", [] {
    const auto drawn = *rc::gen::nonEmpty<std::vector<int>>();  // below 0: never
    std::vector<std::optional<int>> with_never;
    std::vector<std::optional<int>> all_come;
    for (const int one : drawn) {
      const int day = one % 300;
      with_never.push_back(one < 0 ? std::nullopt : std::optional{day});
      all_come.push_back(one < 0 ? 300 : day);
    }
    const auto never = day_band_of(with_never).high;
    if (never) RC_ASSERT(*day_band_of(all_come).high <= *never);
  });
}
