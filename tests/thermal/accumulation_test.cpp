// SPDX-License-Identifier: MIT
#include "thermal/accumulation.hpp"

#include <rapidcheck/catch.h>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "celsius_series.hpp"

using namespace soilclock;
using namespace soilclock::thermal;
using tests::c;
using tests::days_from;

namespace {

const Day leap_eve = make_day(2024, 2, 27);

DailySeries<Temperature> leap_week(const std::vector<double>& celsius) {
  return days_from(leap_eve, celsius);
}

const DegreeDayRule sine_above_10{Method::sine, c(10), {}, Cutoff::none, true};

}  // namespace

TEST_CASE("cooling degree-days below 21 C add up as in the worked row") {
  // Daily means and running sums derived from the definition of Taylor et al. 2021.
  const auto means = leap_week({24, 22, 20.5, 19, 21, 17.5});
  const Accumulation cooling = accumulate_cooling(means, c(21), means.days());
  const std::vector<double> expected{0, 0, 0.5, 2.5, 2.5, 6.0};
  REQUIRE(cooling.sums.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i)
    CHECK(cooling.sums[i].celsius_days() == Approx(expected[i]));
  CHECK(cooling.total().celsius_days() == Approx(6.0));
}

TEST_CASE("sums of daily soil means count what lies above the base and can be capped") {
  const auto soil = leap_week({8, 12, 15, 11, 25});
  CHECK(accumulate_means(soil, c(12), {}, soil.days()).total().celsius_days() == Approx(16.0));
  CHECK(accumulate_means(soil, c(12), c(20), soil.days()).total().celsius_days() == Approx(11.0));
}

TEST_CASE("a missing day adds nothing, is counted and is not zero") {
  const double gap = std::nan("");
  const auto low = leap_week({12, gap, 12, 12});
  const auto high = leap_week({20, 20, 20, gap});
  const auto sum = accumulate(low, high, sine_above_10, {leap_eve, leap_eve + Days{6}});
  REQUIRE(sum.has_value());
  CHECK(sum->total().celsius_days() == Approx(12.0));
  CHECK(sum->missing_days == 4);
  CHECK_FALSE(sum->values.at(leap_eve + Days{1}).has_value());
  CHECK(sum->sums.at(1).celsius_days() == Approx(6.0));
}

TEST_CASE("an empty range gives an empty sum of zero") {
  const auto sum = accumulate(leap_week({12}), leap_week({20}), sine_above_10, {leap_eve, leap_eve});
  REQUIRE(sum.has_value());
  CHECK(sum->total() == DegreeDays{});
  CHECK(sum->missing_days == 0);
}

TEST_CASE("a day with its extremes reversed stops the sum and is named") {
  const auto sum =
      accumulate(leap_week({12, 21}), leap_week({20, 20}), sine_above_10, {leap_eve, leap_eve + Days{2}});
  REQUIRE_FALSE(sum.has_value());
  CHECK(sum.error().family == Family::data);
  CHECK_THAT(describe(sum.error()), Catch::Contains("2024-02-28"));
}

TEST_CASE("double methods look past the end of the range and mark what a later minimum can still change") {
  const auto low = leap_week({4, 11, 6, 5});
  const auto high = leap_week({20, 22, 18, 15});
  const DegreeDayRule rule{Method::double_sine, c(10), {}, Cutoff::none, true};
  const auto whole = accumulate(low, high, rule, {leap_eve, leap_eve + Days{4}});
  REQUIRE(whole.has_value());
  CHECK(whole->provisional == std::vector<Day>{leap_eve + Days{3}});
  CHECK(whole->values.at(leap_eve)->celsius_days() == Approx(4.563240).margin(1e-6));
  const auto part = accumulate(low, high, rule, {leap_eve, leap_eve + Days{2}});
  REQUIRE(part.has_value());
  CHECK(part->provisional.empty());
  CHECK(part->total() == whole->sums.at(1));
}

TEST_CASE("a sum is no better than the weakest of its temperatures") {
  DailySeries<Temperature> low = leap_week({12});
  DailySeries<Temperature> high = leap_week({20});
  high.set(leap_eve, c(20), Quality::forecast);
  CHECK(accumulate(low, high, sine_above_10, low.days())->values.quality(leap_eve) == Quality::forecast);
}

TEST_CASE("laws of sums") {
  const auto any_series = [] {
    const auto tenths = *rc::gen::container<std::vector<int>>(rc::gen::inRange(-100, 350));
    std::vector<double> celsius;
    for (const int value : tenths) celsius.push_back(value % 7 == 0 ? std::nan("") : value / 10.0);
    return leap_week(celsius);
  };
  rc::prop("sums of floored values never fall", [&] {
    const auto means = any_series();
    for (const Accumulation& sum :
         {accumulate_means(means, c(10), {}, means.days()), accumulate_cooling(means, c(21), means.days())}) {
      for (std::size_t i = 1; i < sum.sums.size(); ++i) RC_ASSERT(sum.sums[i] >= sum.sums[i - 1]);
    }
  });
  rc::prop("splitting a range anywhere changes neither the total nor the missing days", [&] {
    const auto means = any_series();
    const Day cut = leap_eve + Days{*rc::gen::inRange(0, means.size() + 1)};
    const Accumulation whole = accumulate_means(means, c(10), {}, means.days());
    const Accumulation before = accumulate_means(means, c(10), {}, {leap_eve, cut});
    const Accumulation after = accumulate_means(means, c(10), {}, {cut, means.days().end()});
    RC_ASSERT(std::abs((before.total() + after.total() - whole.total()).celsius_days()) < 1e-9);
    RC_ASSERT(before.missing_days + after.missing_days == whole.missing_days);
  });
  rc::prop("heating and cooling about one temperature differ by the plain sum", [&] {
    const auto means = any_series();
    double plain = 0.0;
    for (const Temperature value : means.values()) plain += value.known() ? value.celsius() - 18.0 : 0.0;
    const double difference = (accumulate_means(means, c(18), {}, means.days()).total() -
                               accumulate_cooling(means, c(18), means.days()).total())
                                  .celsius_days();
    RC_ASSERT(std::abs(difference - plain) < 1e-9);
  });
}
