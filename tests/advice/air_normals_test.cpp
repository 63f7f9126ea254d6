// SPDX-License-Identifier: MIT
#include "advice/futures/air_normals.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "made_up_site.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const DayRange six_years{make_day(2014, 1, 1), make_day(2020, 1, 1)};

/// The shipped rules without a prior on the shape of the year.
FutureRules without_prior() {
  FutureRules rules = shipped_catalogue().futures;
  rules.usual_air.shape_error_kelvin = 100.0;
  return rules;
}

}  // namespace

TEST_CASE("normals find the wave a record was made with") {
  const auto wave = [](Day day) { return annual_wave(day, 13.0, 11.0); };
  const AirNormals normals = fit_air_normals(air_of(six_years, wave), carolina, without_prior());
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
  const AirNormals normals = fit_air_normals(air, carolina, without_prior());
  // Six years hold about 390 independent days: the standard deviation is known to 4 %, the memory to 0.02.
  CHECK(normals.noise_sd_c == Approx(4.0).margin(0.5));
  CHECK(normals.noise_memory == Approx(0.7).margin(0.06));
  CHECK(normals.mean_c.at(200) == Approx(24.0).margin(1.0));
}

TEST_CASE("missing days are left out, not taken for cold ones") {
  auto air = air_of(six_years, [](Day day) { return annual_wave(day, 13.0, 11.0); });
  for (Day day = make_day(2016, 6, 1); day < make_day(2016, 9, 1); day += Days{1}) air.air_max.clear(day);
  const AirNormals normals = fit_air_normals(air, carolina, without_prior());
  CHECK(normals.days_used == six_years.size() - 92);
  CHECK(normals.mean_c.at(200) == Approx(24.0).margin(0.05));
}

TEST_CASE("part of a year is steadied by the shape of its place") {
  // A month of one temperature says nothing of the year: the grid has the Carolinas swing by about 20 C
  // between January and July.
  const DayRange april{make_day(2020, 4, 1), make_day(2020, 5, 1)};
  const auto flat = air_of(april, [](Day) { return 12.0; });
  const AirNormals north = fit_air_normals(flat, carolina, shipped_catalogue().futures);
  const double swing = north.mean_c.at(200) - north.mean_c.at(17);
  CHECK(swing > 16.0);
  CHECK(swing < 23.0);
  CHECK(north.mean_c.at(105) == Approx(12.0).margin(1.0));
  // In the south the same April is autumn.
  const AirNormals south = fit_air_normals(flat, {-36.0, 148.0, {}}, shipped_catalogue().futures);
  CHECK(south.mean_c.at(200) - south.mean_c.at(17) < -10.0);
  // Far out at sea the latitude's usual year stands in: 10.5 C to either side at 36 degrees.
  const AirNormals sea = fit_air_normals(flat, {36.0, -40.0, {}}, shipped_catalogue().futures);
  CHECK(sea.mean_c.at(200) - sea.mean_c.at(17) == Approx(21.0).margin(3.0));
}

TEST_CASE("many years outweigh the shape, and a record's error shrinks with its length") {
  const DayRange twelve_years{make_day(2008, 1, 1), make_day(2020, 1, 1)};
  const auto tropical = [](DayRange days) { return air_of(days, [](Day) { return 12.0; }); };
  const FutureRules& rules = shipped_catalogue().futures;
  const AirNormals years = fit_air_normals(tropical(twelve_years), carolina, rules);
  const AirNormals one =
      fit_air_normals(tropical({make_day(2019, 1, 1), make_day(2020, 1, 1)}), carolina, rules);
  CHECK(years.mean_c.at(200) < one.mean_c.at(200));
  CHECK(years.mean_c.at(200) == Approx(12.0).margin(3.0));
  const auto error_of = [](const AirNormals& normals, int day) {
    double squares = 0.0;
    for (const AnnualWave& part : normals.error_parts) squares += part.at(day) * part.at(day);
    return std::sqrt(squares);
  };
  CHECK(error_of(years, 200) < 0.5 * error_of(one, 200));
  // One year: its level alone strays by 0.7 C (180 K2 d over 365 d), the shape adds what the pull leaves.
  CHECK(error_of(one, 200) > 0.7);
  CHECK(error_of(one, 200) < 1.2);
}
