// SPDX-License-Identifier: MIT
#include "soil/learned_error.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "core/random.hpp"
#include "error_covariance.hpp"
#include "soil_files.hpp"

using namespace soilclock;
using namespace soilclock::soil;

namespace {

SoilErrorModel usual_error() {
  return tests::soil_files().choose(Place{36.0, -85.0, {}}).error_at(Depth::from_cm(5.0));
}

/// A year of weekly readings of a site whose error has `size` times the usual variances, each reading off by
/// `noise_sd`.
std::vector<SoilReading> weekly(double size, double noise_sd, std::uint64_t site) {
  const DayRange year{make_day(2020, 1, 1), make_day(2021, 1, 1)};
  const RandomField field{site};
  const ConditionedSoilError truth{usual_error().widened(size), Hemisphere::north, year, {}};
  const auto error = truth.draw(field, 0);
  std::vector<SoilReading> readings;
  for (int day = 0; day < year.size(); day += 7) {
    const auto noise =
        TemperatureDelta::from_kelvin(noise_sd * field.normal(1, static_cast<std::uint64_t>(day)));
    readings.push_back({year.begin() + Days{day}, error[static_cast<std::size_t>(day)] - noise, 0.05});
  }
  return readings;
}

/// Means over forty made-up sites: the size of the error and the variance added to a reading.
std::pair<double, double> learned_on_average(double size, double noise_sd) {
  constexpr int sites = 40;
  double sizes = 0.0;
  double noise = 0.0;
  for (std::uint64_t site = 1; site <= sites; ++site) {
    const LearnedError learned = learned_error(usual_error(), Hemisphere::north, weekly(size, noise_sd, site),
                                               tests::estimate_rules());
    sizes += learned.error.slow_variance / usual_error().slow_variance / sites;
    noise += (learned.readings.front().variance_k2 - 0.05) / sites;
  }
  return {sizes, noise};
}

}  // namespace

TEST_CASE("rough readings are found out, fine ones stay fine") {
  const auto [size_fine, fine] = learned_on_average(1.0, std::sqrt(0.05));
  const auto [size_rough, rough] = learned_on_average(1.0, 1.0);
  CHECK(fine < 0.2);
  CHECK(rough > 0.59);  // of 1.0: the prior pulls it down
  CHECK(rough < 1.3);
  CHECK(size_fine == Approx(1.0).margin(0.35));
  CHECK(size_rough == Approx(1.0).margin(0.5));
}

TEST_CASE("a site whose estimate strays far or little is found out") {
  CHECK(learned_on_average(3.0, std::sqrt(0.05)).first > 1.7);
  CHECK(learned_on_average(0.33, std::sqrt(0.05)).first < 0.65);
}

TEST_CASE("a few readings change nothing of what is believed") {
  auto readings = weekly(3.0, 1.0, 1);
  readings.resize(static_cast<std::size_t>(tests::estimate_rules().learn_readings) - 1);
  const LearnedError learned =
      learned_error(usual_error(), Hemisphere::north, readings, tests::estimate_rules());
  CHECK(learned.error.slow_variance == usual_error().slow_variance);
  CHECK(learned.readings.front().variance_k2 == 0.05);
  CHECK(learned_error(usual_error(), Hemisphere::north, {}, tests::estimate_rules()).readings.empty());
}

TEST_CASE("the evidence of two readings is that of their joint normal distribution") {
  // Ten days apart; the determinant and inverse of the two by two covariance by hand.
  const SoilErrorModel error = usual_error();
  const Day first = make_day(2020, 5, 1);
  const Day second = first + Days{10};
  const double noise = 0.05;
  const double v1 = tests::error_covariance(error, Hemisphere::north, first, first) + noise;
  const double v2 = tests::error_covariance(error, Hemisphere::north, second, second) + noise;
  const double c = tests::error_covariance(error, Hemisphere::north, first, second);
  const double x = 0.7;
  const double y = -0.4;
  const double determinant = v1 * v2 - c * c;
  const double square = (v2 * x * x - 2.0 * c * x * y + v1 * y * y) / determinant;
  const double expected =
      -std::log(2.0 * 3.14159265358979323846) - 0.5 * std::log(determinant) - 0.5 * square;
  const std::vector<SoilReading> readings{{first, TemperatureDelta::from_kelvin(x), noise},
                                          {second, TemperatureDelta::from_kelvin(y), noise}};
  CHECK(ConditionedSoilError::log_evidence(error, Hemisphere::north, {second, second + Days{1}}, readings) ==
        Approx(expected).epsilon(1e-9));
}
