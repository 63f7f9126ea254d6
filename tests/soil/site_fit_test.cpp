// SPDX-License-Identifier: MIT
#include "soil/site_fit.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/random.hpp"
#include "soil_files.hpp"

using namespace soilclock;
using namespace soilclock::soil;

namespace {

const Day first = make_day(2019, 1, 1);
const Place tennessee{36.01, -85.13, {}};

DailySeries<Temperature> made_air(int days) {
  DailySeries<Temperature> air{DayRange{first, first + Days{days}}};
  for (int i = 0; i < days; ++i) {
    const double wave = std::cos(6.283185307 * (i + 1 - 200) / 365.25);
    air.set(first + Days{i}, Temperature::from_celsius(13.0 + 11.0 * wave), Quality::measured);
  }
  return air;
}

/// Soil that lies on 2 + 0.9 times the estimate, read every so many days with some noise.
SoilTemperature site_with_readings(int days, int every, double noise_k) {
  SoilTemperature soil =
      soil_temperature(tests::soil_files(), {tennessee, Depth::from_cm(5.0), {}, {}}, made_air(days));
  const RandomField random{5};
  for (int i = 0; i < days; i += every) {
    const auto estimate = soil.estimate.at(first + Days{i});
    const double truth = 2.0 + 0.9 * estimate->celsius();
    const double reading = truth + noise_k * random.normal(1, static_cast<std::uint64_t>(i));
    soil.readings.push_back(
        {first + Days{i}, TemperatureDelta::from_kelvin(estimate->celsius() - reading), 0.05});
  }
  return soil;
}

}  // namespace

TEST_CASE("readings improve the estimate of readings they have not seen") {
  for (const int days : {200, 700}) {
    const FittedSoil fit = fit_to_readings(site_with_readings(days, 7, 0.2), Hemisphere::north);
    INFO(days << " days: " << fit.rmse_before_c << " -> " << fit.rmse_after_c);
    CHECK(fit.scored > 20);
    CHECK(fit.rmse_after_c < 0.7 * fit.rmse_before_c);
  }
}

TEST_CASE("without readings the fit is the estimate and there is no score") {
  const SoilTemperature soil =
      soil_temperature(tests::soil_files(), {tennessee, Depth::from_cm(5.0), {}, {}}, made_air(100));
  const FittedSoil fit = fit_to_readings(soil, Hemisphere::north);
  CHECK(fit.scored == 0);
  CHECK(std::isnan(fit.rmse_after_c));
  CHECK(fit.fitted.at(first + Days{99})->celsius() == Approx(soil.estimate.at(first + Days{99})->celsius()));
}
