// SPDX-License-Identifier: MIT
#include "core/random.hpp"

#include <gsl/gsl_cdf.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace soilclock;

TEST_CASE("the normal quantile agrees with the GNU scientific library") {
  double worst = 0.0;
  const auto compare = [&](double probability) {
    const double theirs = gsl_cdf_ugaussian_Pinv(probability);
    worst =
        std::max(worst, std::abs(normal_quantile(probability) - theirs) / std::max(1.0, std::abs(theirs)));
  };
  for (int i = 1; i < 20000; ++i) compare(i / 20000.0);
  for (int exponent = 5; exponent < 300; ++exponent) compare(std::pow(10.0, -exponent));
  for (int exponent = 5; exponent < 15; ++exponent) compare(1.0 - std::pow(10.0, -exponent));
  CAPTURE(worst);
  CHECK(worst < 1e-12);
}

TEST_CASE("the field of normal numbers has the moments of the standard normal distribution") {
  const RandomField field{20261015};
  constexpr int count = 200000;
  double sums[5]{};
  for (int i = 0; i < count; ++i) {
    const double x = field.normal(3, static_cast<std::uint64_t>(i));
    for (int power = 1; power <= 4; ++power) sums[power] += std::pow(x, power) / count;
  }
  // Four standard errors of each moment: variances of x, x^2, x^3, x^4 are 1, 2, 15, 96.
  const double unit = 4.0 / std::sqrt(static_cast<double>(count));
  CHECK(std::abs(sums[1]) < unit);
  CHECK(std::abs(sums[2] - 1.0) < unit * std::sqrt(2.0));
  CHECK(std::abs(sums[3]) < unit * std::sqrt(15.0));
  CHECK(std::abs(sums[4] - 3.0) < unit * std::sqrt(96.0));
}

TEST_CASE("neighboring indices, streams and seeds are independent") {
  constexpr int count = 100000;
  const RandomField field{7};
  const RandomField other{8};
  double along = 0.0;
  double across = 0.0;
  double between_seeds = 0.0;
  for (std::uint64_t i = 0; i < count; ++i) {
    const double x = field.normal(0, i);
    along += x * field.normal(0, i + 1) / count;
    across += x * field.normal(1, i) / count;
    between_seeds += x * other.normal(0, i) / count;
  }
  const double bound = 4.0 / std::sqrt(static_cast<double>(count));
  CHECK(std::abs(along) < bound);
  CHECK(std::abs(across) < bound);
  CHECK(std::abs(between_seeds) < bound);
}

TEST_CASE("uniform numbers fill the open interval evenly") {
  const RandomField field{1};
  std::vector<int> bins(64, 0);
  constexpr int count = 128000;
  for (std::uint64_t i = 0; i < count; ++i) {
    const double u = field.uniform(i % 5, i / 5);
    REQUIRE(u > 0.0);
    REQUIRE(u < 1.0);
    ++bins[static_cast<std::size_t>(u * 64.0)];
  }
  double chi_square = 0.0;
  for (const int n : bins) chi_square += (n - 2000.0) * (n - 2000.0) / 2000.0;
  // 0.0001 and 0.9999 quantiles of chi-square with 63 degrees of freedom.
  CHECK(chi_square > gsl_cdf_chisq_Pinv(1e-4, 63));
  CHECK(chi_square < gsl_cdf_chisq_Pinv(1.0 - 1e-4, 63));
}

TEST_CASE("a number depends on its address alone") {
  const RandomField field{42};
  const double before = field.uniform(9, 1000);
  for (std::uint64_t i = 0; i < 10; ++i) static_cast<void>(field.uniform(9, i));
  CHECK(field.uniform(9, 1000) == before);
  CHECK(RandomField{42}.uniform(9, 1000) == before);
  CHECK(RandomField{43}.uniform(9, 1000) != before);
}
