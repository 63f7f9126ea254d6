// SPDX-License-Identifier: MIT
#include "thermal/crossing.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "celsius_series.hpp"

using namespace soilclock;
using namespace soilclock::thermal;
using tests::c;
using tests::days_from;

namespace {

const double gap = std::nan("");
const Day december_29 = make_day(2024, 12, 29);

Day day(int index) { return december_29 + Days{index}; }

DailySeries<Temperature> turn_of_year(const std::vector<double>& celsius) {
  return days_from(december_29, celsius);
}

}  // namespace

TEST_CASE("the trailing mean runs over the day and the days before it") {
  const auto weeks = turn_of_year({1, 2, 3, 4, 5, 6, 7, 15});
  const auto mean = trailing_mean(weeks, weeks.days(), 5);
  CHECK_FALSE(mean.at(day(3)).has_value());
  CHECK(mean.at(day(4))->celsius() == Approx(3.0));
  CHECK(mean.at(day(6))->celsius() == Approx(4.0));
  CHECK(mean.at(day(7))->celsius() == Approx(6.0));
}

TEST_CASE("a trailing mean needs five of its seven days and takes the weakest quality") {
  auto values = turn_of_year({10, gap, 10, 10, gap, 10, 17, gap});
  values.set(day(6), c(17), Quality::filled);
  const auto mean = trailing_mean(values, values.days(), 5);
  CHECK_FALSE(mean.at(day(5)).has_value());
  CHECK(mean.at(day(6))->celsius() == Approx(11.4));
  CHECK(mean.quality(day(6)) == Quality::filled);
  CHECK_FALSE(mean.at(day(7)).has_value());
}

TEST_CASE("the first run is found across New Year and the level itself counts") {
  const auto values = turn_of_year({20, 18.9, 18.9, 19, 18.9, 18.0, 18.8, 20, 17, 17, 17});
  CHECK(first_run(values, {c(18.9), Side::at_or_below, 3}, values.days()) == day(4));
  CHECK(first_run(values, {c(18.9), Side::at_or_below, 2}, values.days()) == day(1));
  CHECK_FALSE(first_run(values, {c(18.9), Side::at_or_below, 4}, values.days()).has_value());
  CHECK(first_run(values, {c(18.9), Side::at_or_above, 5}, values.days()) == day(0));
  CHECK(first_run(values, {c(18.9), Side::at_or_below, 3}, {day(5), values.days().end()}) == day(8));
}

TEST_CASE("a missing day breaks a run") {
  const auto values = turn_of_year({20, 15, 15, gap, 15, 15, 15});
  CHECK(first_run(values, {c(18), Side::at_or_below, 3}, values.days()) == day(4));
}

TEST_CASE("a run that the range cuts off does not count") {
  const auto values = turn_of_year({20, 15, 15, 15});
  CHECK_FALSE(first_run(values, {c(18), Side::at_or_below, 3}, {day(0), day(3)}).has_value());
}

TEST_CASE("last crossing and reversals tell how often the series turned back") {
  const auto values = turn_of_year({20, 17, 17, 20, 17, gap, 20, 16, 16});
  const CrossingRule rule{c(18), Side::at_or_below, 2};
  CHECK(first_run(values, rule, values.days()) == day(1));
  CHECK(last_crossing(values, rule, values.days()) == day(7));
  CHECK(reversals(values, rule, values.days()) == 2);
  CHECK(reversals(values, rule, {day(7), day(9)}) == 0);
  CHECK_FALSE(last_crossing(values, rule, {day(7), day(9)}).has_value());
}
