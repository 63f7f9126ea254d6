// SPDX-License-Identifier: MIT
#include "treatment/delta_t.hpp"

#include <rapidcheck/catch.h>

using namespace soilclock;
using namespace soilclock::treatment;

TEST_CASE("the wet bulb at 20 C and 50 percent is the printed one") {
  // Stull 2011, Journal of Applied Meteorology and Climatology 50:2267-2269: 13.7 C.
  CHECK(wet_bulb(Temperature::from_celsius(20), 50).celsius() == Approx(13.6993).margin(0.0001));
  CHECK(delta_t(Temperature::from_celsius(20), 50).kelvin() == Approx(6.30).margin(0.005));
}

TEST_CASE("wet bulb and delta-T of the usual spray-day table") {
  struct Row {
    double air, humidity, wet, delta;
  };
  for (const Row& row :
       {Row{10, 80, 7.93, 2.07}, Row{5, 90, 3.99, 1.01}, Row{15, 95, 14.41, 0.59}, Row{15, 40, 8.25, 6.75},
        Row{20, 30, 10.82, 9.18}, Row{25, 35, 15.52, 9.48}, Row{30, 30, 18.37, 11.63}}) {
    INFO(row.air << " C, " << row.humidity << " percent");
    CHECK(wet_bulb(Temperature::from_celsius(row.air), row.humidity).celsius() ==
          Approx(row.wet).margin(0.006));
    CHECK(delta_t(Temperature::from_celsius(row.air), row.humidity).kelvin() ==
          Approx(row.delta).margin(0.006));
  }
}

TEST_CASE("the wet bulb agrees with the psychrometer equation within its stated error") {
  // Second route: e_s(Tw) - 0.000665 * 101.3 * (T - Tw) = e (FAO-56, equations 11 and 15), solved by halving.
  const auto saturation = [](double t) { return 0.6108 * std::exp(17.27 * t / (t + 237.3)); };
  rc::prop("between 0 and 40 C and 20 and 95 percent", [&] {
    const double t = *rc::gen::inRange(0, 41);
    const double humidity = *rc::gen::inRange(20, 96);
    double low = -30.0;
    double high = t;
    for (int i = 0; i < 60; ++i) {
      const double wet = 0.5 * (low + high);
      const double vapor = saturation(wet) - 0.000665 * 101.3 * (t - wet);
      (vapor < humidity / 100.0 * saturation(t) ? low : high) = wet;
    }
    const double error = wet_bulb(Temperature::from_celsius(t), humidity).celsius() - low;
    RC_ASSERT(error > -1.1);
    RC_ASSERT(error < 0.8);
  });
}
