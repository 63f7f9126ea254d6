// SPDX-License-Identifier: MIT
#include "soil/radiation.hpp"

#include <rapidcheck/catch.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using soilclock::soil::extraterrestrial_radiation_mj_m2;

TEST_CASE("extraterrestrial radiation gives the worked example of FAO-56") {
  // Allen et al. 1998, example 8: 20 degrees south, 3 September, 32.2 MJ m-2 d-1. Published.
  CHECK(extraterrestrial_radiation_mj_m2(-20.0, 246) == Approx(32.2).margin(0.05));
}

TEST_CASE("extraterrestrial radiation at 36 N keeps its values through the year") {
  // Derived: the equations worked separately.
  CHECK(extraterrestrial_radiation_mj_m2(36.0, 1) == Approx(16.3093).margin(5e-5));
  CHECK(extraterrestrial_radiation_mj_m2(36.0, 80) == Approx(30.4169).margin(5e-5));
  CHECK(extraterrestrial_radiation_mj_m2(36.0, 172) == Approx(41.6969).margin(5e-5));
  CHECK(extraterrestrial_radiation_mj_m2(36.0, 266) == Approx(29.6023).margin(5e-5));
}

TEST_CASE("the pole has no sun in winter and a sun that does not set in summer") {
  CHECK(extraterrestrial_radiation_mj_m2(90.0, 355) == 0.0);
  CHECK(extraterrestrial_radiation_mj_m2(85.0, 172) > extraterrestrial_radiation_mj_m2(36.0, 172));
}

TEST_CASE("the closed form equals the sun's height summed over the day") {
  rc::prop("second route: the positive part of the sine of the sun's height, by the minute", [] {
    const double latitude = *rc::gen::inRange(-900, 901) / 10.0 * 3.14159265358979 / 180.0;
    const int doy = *rc::gen::inRange(1, 367);
    const double angle = 2.0 * 3.14159265358979 * doy / 365.0;
    const double declination = 0.409 * std::sin(angle - 1.39);
    double sum = 0.0;
    for (int minute = 0; minute < 1440; ++minute) {
      const double hour_angle = 2.0 * 3.14159265358979 * (minute + 0.5) / 1440.0;
      sum += std::max(0.0, std::sin(latitude) * std::sin(declination) +
                               std::cos(latitude) * std::cos(declination) * std::cos(hour_angle));
    }
    const double expected = 0.0820 * (1.0 + 0.033 * std::cos(angle)) * sum;
    const double value = extraterrestrial_radiation_mj_m2(latitude * 180.0 / 3.14159265358979, doy);
    RC_ASSERT(std::abs(value - expected) < 1e-3);
  });
}
