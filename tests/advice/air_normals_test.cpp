// SPDX-License-Identifier: MIT
#include "advice/futures/air_normals.hpp"

#include <catch2/catch.hpp>

#include "made_up_site.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const DayRange six_years{make_day(2014, 1, 1), make_day(2020, 1, 1)};

}  // namespace

TEST_CASE("normals find the wave a record was made with") {
  const auto wave = [](Day day) { return annual_wave(day, 13.0, 11.0); };
  const AirNormals normals = fit_air_normals(air_of(six_years, wave), carolina, shipped_catalogue().futures);
  for (const unsigned month : {1U, 4U, 7U, 10U}) {
    const Day day = make_day(2017, month, 15);
    CAPTURE(month);
    CHECK(normals.mean_c.at(day_of_year(day)) == Approx(wave(day)).margin(0.05));
    CHECK(normals.half_range_c.at(day_of_year(day)) == Approx(6.0).margin(0.05));
  }
  CHECK(normals.noise_sd_c < 0.1);
  CHECK(normals.days_used == six_years.size());
}

TEST_CASE("normals find the noise and its memory") {
  const Noise noise{six_years.begin(), six_years.size(), 4.0, 0.7};
  const auto air = air_of(six_years, [&](Day day) { return annual_wave(day, 13.0, 11.0) + noise.on(day); });
  const AirNormals normals = fit_air_normals(air, carolina, shipped_catalogue().futures);
  // Six years hold about 390 independent days: the standard deviation is known to 4 %, the memory to 0.02.
  CHECK(normals.noise_sd_c == Approx(4.0).margin(0.5));
  CHECK(normals.noise_memory == Approx(0.7).margin(0.06));
  CHECK(normals.mean_c.at(200) == Approx(24.0).margin(1.0));
}

TEST_CASE("missing days are left out, not taken for cold ones") {
  auto air = air_of(six_years, [](Day day) { return annual_wave(day, 13.0, 11.0); });
  for (Day day = make_day(2016, 6, 1); day < make_day(2016, 9, 1); day += Days{1}) air.air_max.clear(day);
  const AirNormals normals = fit_air_normals(air, carolina, shipped_catalogue().futures);
  CHECK(normals.days_used == six_years.size() - 92);
  CHECK(normals.mean_c.at(200) == Approx(24.0).margin(0.05));
}

TEST_CASE("part of a year is pulled to the wave of its latitude") {
  // A month of one temperature says nothing of the year: at 36 degrees the prior wave swings 10.5 C to either
  // side.
  const DayRange april{make_day(2020, 4, 1), make_day(2020, 5, 1)};
  const auto flat = air_of(april, [](Day) { return 12.0; });
  const AirNormals north = fit_air_normals(flat, carolina, shipped_catalogue().futures);
  const double swing = north.mean_c.at(200) - north.mean_c.at(17);
  CHECK(swing > 14.0);
  CHECK(swing < 21.0);
  CHECK(north.mean_c.at(105) == Approx(12.0).margin(1.0));
  // In the south the same April is autumn.
  const AirNormals south = fit_air_normals(flat, {-36.0, 150.0, {}}, shipped_catalogue().futures);
  CHECK(south.mean_c.at(200) - south.mean_c.at(17) < -14.0);
  // Two whole years speak for themselves: a place without seasons is believed.
  const auto tropical = air_of({make_day(2018, 1, 1), make_day(2020, 1, 1)}, [](Day) { return 12.0; });
  CHECK(fit_air_normals(tropical, carolina, shipped_catalogue().futures).mean_c.at(200) ==
        Approx(12.0).margin(0.1));
}
