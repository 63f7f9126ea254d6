// SPDX-License-Identifier: MIT
#include "soil/evapotranspiration.hpp"

#include <catch2/catch.hpp>

using namespace soilclock;

namespace {

double mm_per_day(double mean_c, double range_k, double latitude_deg, int day_of_year) {
  return soil::reference_evapotranspiration(Temperature::from_celsius(mean_c),
                                            TemperatureDelta::from_kelvin(range_k), latitude_deg, day_of_year)
      .mm();
}

}  // namespace

TEST_CASE("evapotranspiration from temperatures gives the worked example of FAO-56") {
  // Allen et al. 1998, example 20, from memory: near Lyon, 45 degrees 43 minutes north, July with 14.8 to
  // 26.6 C: 5.0 mm a day from temperatures alone, 4.6 with the radiation and humidity of the place.
  CHECK(mm_per_day(20.7, 11.8, 45.0 + 43.0 / 60.0, 196) == Approx(5.0).margin(0.05));
}

TEST_CASE("evapotranspiration by hand on the day of the radiation example") {
  // 20 degrees south, 3 September: 32.2 MJ m-2 (example 8), which evaporate 0.408 x 32.2 = 13.14 mm. At 25 C
  // with a range of 9 C: 0.0023 x 42.8 x 3 x 13.14 = 3.88.
  CHECK(mm_per_day(25.0, 9.0, -20.0, 246) == Approx(3.88).margin(0.01));
  // Four times the range gives twice the water.
  CHECK(mm_per_day(25.0, 36.0, -20.0, 246) == Approx(7.76).margin(0.02));
}

TEST_CASE("nothing evaporates without sun, range or warmth, and never less than nothing") {
  CHECK(mm_per_day(10.0, 10.0, 90.0, 355) == 0.0);
  CHECK(mm_per_day(10.0, 0.0, 36.0, 172) == 0.0);
  CHECK(mm_per_day(-30.0, 10.0, 36.0, 172) == 0.0);
}
