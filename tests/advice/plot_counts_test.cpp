// SPDX-License-Identifier: MIT
#include "advice/scouting/plot_counts.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "advice/scouting/resampling.hpp"
#include "advice/site/seen_stage.hpp"
#include "rapidcheck/catch.h"
#include "support/shipped_catalogue.hpp"

using namespace soilclock;
using namespace soilclock::advice;

namespace {

/// Negative binomial by its product form, (k)(k+1)...(k+c-1)/c! p^k q^c: no gamma function in it.
double plot_probability(int count, double mean, double k) {
  double value = std::pow(k / (k + mean), k);
  for (int i = 0; i < count; ++i) value *= (k + i) / (i + 1.0) * mean / (k + mean);
  return value;
}

/// The same integral on a grid ten times as fine, plot by plot.
double fine_likelihood(const std::vector<PlotGroup>& groups, const std::vector<double>& shares) {
  double sum = 0.0;
  double all = 0.0;
  for (int t = 0; t < 360; ++t) {
    const double z = 6.0 * t / 359.0 - 3.0;
    for (int i = 0; i < 60; ++i) {
      const double k = 0.5 * std::pow(6.0, i / 59.0);
      const double zk = std::log(k / 1.2) / 0.45;
      const double prior = std::exp(-0.5 * z * z - 0.5 * zk * zk);
      double value = prior;
      for (const PlotGroup& group : groups) {
        const double mean = 100.0 * std::exp(1.3 * z) * std::max(0.002, shares[group.visit]) * group.area_m2;
        for (const int count : group.counts) value *= plot_probability(count, mean, k);
      }
      sum += value;
      all += prior;
    }
  }
  return std::log(sum / all);
}

double log_likelihood(const std::vector<PlotGroup>& groups, const std::vector<double>& shares) {
  const CountPriors priors = count_priors(tests::shipped_catalogue().scouting.counts);
  return CurveMeans{groups, shares, priors}.log_likelihood(sums_of(groups, priors));
}

}  // namespace

TEST_CASE("the likelihood of plots agrees with a fine quadrature of the product form") {
  const std::vector<PlotGroup> few{{0, 0.1, {0, 1, 0, 3, 0}}, {1, 0.25, {4, 9, 0}}, {1, 0.1, {2, 2}}};
  for (const std::vector<double>& shares : {std::vector{0.05, 0.4}, {0.5, 0.9}, {0.02, 1.0}}) {
    CAPTURE(shares);
    CHECK(log_likelihood(few, shares) == Approx(fine_likelihood(few, shares)).margin(0.1));
  }
}

TEST_CASE("probabilities of all counts of a plot add up to one") {
  double sum = 0.0;
  for (int count = 0; count < 3000; ++count) sum += std::exp(log_likelihood({{0, 0.05, {count}}}, {0.3}));
  CHECK(sum == Approx(1.0).margin(0.002));
}

TEST_CASE("a drawn count is the geometric's closed form where k is one") {
  for (const double mean : {0.2, 3.0, 40.0}) {
    for (const double u : {0.05, 0.31, 0.5, 0.77, 0.99}) {
      CAPTURE(mean, u);
      CHECK(count_at(u, mean, 1.0) ==
            static_cast<int>(std::floor(std::log(1.0 - u) / std::log(mean / (1.0 + mean)))));
    }
  }
}

TEST_CASE("effective size is the number of members that share the weight evenly") {
  CHECK(effective_size(normalized(std::vector<double>{0.0, 0.0, -1e9, -1e9, 0.0})) == Approx(3.0));
  CHECK(normalized(std::vector<double>(4, -std::numeric_limits<double>::infinity())) ==
        std::vector<double>(4, 0.25));
}

TEST_CASE("systematic resampling gives each member its weight's number, up to one") {
  rc::prop("each number is the weight's share of the members, rounded up or down", [] {
    const auto raw = *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 50)));
    const double offset = *rc::gen::inRange(0, 1000) / 1000.0;
    std::vector<double> weights;
    const double all = std::accumulate(raw.begin(), raw.end(), 0.0);
    for (const int value : raw) weights.push_back(value / all);
    std::vector<std::size_t> order(weights.size());
    std::iota(order.rbegin(), order.rend(), std::size_t{0});
    const std::size_t size = *rc::gen::inRange<std::size_t>(1, 300);
    const auto chosen = resampled(weights, order, size, offset);
    RC_ASSERT(chosen.size() == size);
    for (std::size_t i = 0; i < weights.size(); ++i) {
      const auto times = static_cast<double>(std::count(chosen.begin(), chosen.end(), i));
      RC_ASSERT(std::abs(times - weights[i] * static_cast<double>(size)) < 1.0 + 1e-9);
    }
  });
}

TEST_CASE("a shifted course is the same course so many days later") {
  emergence::EmergenceCurve curve;
  for (int day = 0; day < 300; ++day)
    curve.up.push_back(day < 100 ? 0.0 : day < 200 ? (day - 99) / 100.0 : 1.0);
  curve.main_wave_over = 190;
  for (const int days : {-6, 4}) {
    const auto moved = shifted(curve, days);
    CHECK(moved.up.size() == curve.up.size());
    CHECK(*moved.first_day_reaching(0.5) == *curve.first_day_reaching(0.5) + days);
    CHECK(*moved.main_wave_over == 190 + days);
    CHECK(moved.up.back() == 1.0);
  }
  CHECK(!shifted(curve, 150).main_wave_over);
}

TEST_CASE("stages are read as people write them") {
  CHECK(read_seen_stage("2 leaves") == SeenStage::leaves_1_3);
  CHECK(read_seen_stage("1-3 leaf") == SeenStage::leaves_1_3);
  CHECK(read_seen_stage("BBCH 12") == SeenStage::leaves_1_3);
  CHECK(read_seen_stage("Seedlings") == SeenStage::leaves_1_3);
  CHECK(read_seen_stage("4 leaves") == SeenStage::to_one_tiller);
  CHECK(read_seen_stage("one tiller") == SeenStage::to_one_tiller);
  CHECK(read_seen_stage("BBCH 21") == SeenStage::to_one_tiller);
  CHECK(read_seen_stage("2 tillers") == SeenStage::two_tillers);
  CHECK(read_seen_stage("tillered") == SeenStage::older);
  CHECK(read_seen_stage("5 tillers, seedheads") == SeenStage::older);
  CHECK(!read_seen_stage(""));
  CHECK(!read_seen_stage("small"));
  CHECK(!read_seen_stage("BBCH"));
}
