// SPDX-License-Identifier: MIT
#include "soil/soil_error.hpp"

#include <rapidcheck/catch.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <future>

#include "error_covariance.hpp"
#include "soil_files.hpp"

using namespace soilclock;
using namespace soilclock::soil;
using tests::error_covariance;

namespace {

using Matrix = std::vector<std::vector<double>>;

SoilErrorModel five_cm() {
  return tests::soil_files().choose(Place{36.0, -85.0, {}}).error_at(Depth::from_cm(5.0));
}

/// Solves A x = b for a symmetric positive definite A by Cholesky.
std::vector<double> solve(Matrix a, std::vector<double> b) {
  const std::size_t n = b.size();
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t k = 0; k < j; ++k) a[j][j] -= a[j][k] * a[j][k];
    a[j][j] = std::sqrt(a[j][j]);
    for (std::size_t i = j + 1; i < n; ++i) {
      for (std::size_t k = 0; k < j; ++k) a[i][j] -= a[i][k] * a[j][k];
      a[i][j] /= a[j][j];
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k) b[i] -= a[i][k] * b[k];
    b[i] /= a[i][i];
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) b[i] -= a[k][i] * b[k];
    b[i] /= a[i][i];
  }
  return b;
}

/// Mean and variance of the error on a day given readings, by one dense Gaussian conditioning.
std::pair<double, double> conditioned_densely(const SoilErrorModel& model, Hemisphere hemisphere, Day day,
                                              const std::vector<SoilReading>& readings) {
  const std::size_t n = readings.size();
  Matrix c(n, std::vector<double>(n));
  std::vector<double> cross(n);
  std::vector<double> values(n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j)
      c[i][j] = error_covariance(model, hemisphere, readings[i].day, readings[j].day);
    c[i][i] += readings[i].variance_k2;
    cross[i] = error_covariance(model, hemisphere, day, readings[i].day);
    values[i] = readings[i].estimate_minus_reading.kelvin();
  }
  const auto weights = solve(c, cross);
  double mean = 0.0;
  double variance = error_covariance(model, hemisphere, day, day);
  for (std::size_t i = 0; i < n; ++i) {
    mean += weights[i] * values[i];
    variance -= weights[i] * cross[i];
  }
  return {mean, variance};
}

SoilReading reading(Day day, double kelvin, double variance = 0.05) {
  return {day, TemperatureDelta::from_kelvin(kelvin), variance};
}

const Day first_of_march = make_day(2020, 3, 1);
const DayRange two_months{first_of_march, first_of_march + Days{60}};
const std::vector<SoilReading> some_readings{
    reading(first_of_march - Days{45}, 0.9),       reading(first_of_march + Days{3}, 1.4),
    reading(first_of_march + Days{10}, 0.2),       reading(first_of_march + Days{11}, 0.6, 0.8),
    reading(first_of_march + Days{11}, 1.1, 0.05), reading(first_of_march + Days{40}, -1.3),
    reading(first_of_march + Days{75}, -0.4)};

}  // namespace

TEST_CASE(
    "the error model has the measured covariance of estimate minus reading, within a season and years on") {
  // Measured: pooled autocovariance, K2, of 39 US climate reference stations from 2009 to 2017 at 5 cm. What
  // a station is off by comes back a year later.
  const SoilErrorModel model = five_cm();
  const std::pair<int, double> rows[]{{0, 1.90},   {1, 1.71},   {7, 1.30},   {30, 1.06},  {60, 0.80},
                                      {120, 0.37}, {180, 0.19}, {240, 0.33}, {365, 1.01}, {730, 0.91}};
  for (const auto& [lag, measured] : rows) {
    double mean = 0.0;
    for (int i = 0; i < 366; ++i) {
      const Day day = make_day(2020, 1, 1) + Days{i};
      mean += error_covariance(model, Hemisphere::north, day, day + Days{lag}) / 366.0;
    }
    CAPTURE(lag);
    CHECK(mean == Approx(measured).margin(0.21));
  }
}

TEST_CASE(
    "what fades of the error is largest at the start of March in the north and of September in the south") {
  const SoilErrorModel model = five_cm();
  const auto season = [&](Day day, Hemisphere hemisphere) { return parts_on(model, day, hemisphere)[3]; };
  CHECK(season(make_day(2021, 3, 3), Hemisphere::north) == Approx(1.17));
  CHECK(season(make_day(2021, 9, 2), Hemisphere::south) == Approx(1.17).margin(1e-3));
  CHECK(season(make_day(2021, 9, 2), Hemisphere::north) == Approx(0.83).margin(1e-3));
}

TEST_CASE("a year of readings tells next spring's error of a site that swings too far through the year") {
  const SoilErrorModel model = five_cm();
  const auto off = [](Day day) {
    return 0.8 - 1.2 * std::cos(2.0 * std::acos(-1.0) * day_of_year(day) / 365.25);
  };
  std::vector<SoilReading> year;
  const Day end = make_day(2020, 11, 1);
  for (Day day = make_day(2019, 11, 1); day < end; day += Days{7}) year.push_back(reading(day, off(day)));
  const Day spring = make_day(2021, 4, 15);
  const ConditionedSoilError error{model, Hemisphere::north, {end, spring + Days{1}}, year};
  CHECK(error.mean(spring).kelvin() == Approx(off(spring)).margin(0.35));
  CHECK(error.sd(spring).kelvin() <
        0.9 * ConditionedSoilError(model, Hemisphere::north, error.range(), {}).sd(spring).kelvin());
}

TEST_CASE("filter and smoother equal one dense Gaussian conditioning") {
  const SoilErrorModel model = five_cm();
  for (const Hemisphere hemisphere : {Hemisphere::north, Hemisphere::south}) {
    const ConditionedSoilError error{model, hemisphere, two_months, some_readings};
    for (Day day = two_months.begin(); day < two_months.end(); day += Days{1}) {
      const auto [mean, variance] = conditioned_densely(model, hemisphere, day, some_readings);
      CHECK(error.mean(day).kelvin() == Approx(mean).margin(1e-9));
      CHECK(error.sd(day).kelvin() == Approx(std::sqrt(variance)).margin(1e-9));
      std::vector<SoilReading> before;
      for (const SoilReading& one : some_readings) {
        if (one.day <= day) before.push_back(one);
      }
      const double mean_then = conditioned_densely(model, hemisphere, day, before).first;
      CHECK(error.mean_then(day).kelvin() == Approx(mean_then).margin(1e-9));
    }
  }
}

TEST_CASE("the members without readings have the printed covariance") {
  const SoilErrorModel model = five_cm();
  const DayRange range{first_of_march, first_of_march + Days{130}};
  const ConditionedSoilError error{model, Hemisphere::north, range, {}};
  const RandomField field{7};
  constexpr int members = 20000;
  const int lags[]{0, 1, 7, 30, 64, 120};
  double sums[6]{};
  double mean = 0.0;
  for (std::uint64_t member = 0; member < members; ++member) {
    const auto path = error.draw(field, member);
    mean += path[5].kelvin() / members;
    for (std::size_t i = 0; i < 6; ++i) {
      sums[i] += path[5].kelvin() * path[static_cast<std::size_t>(5 + lags[i])].kelvin() / members;
    }
  }
  CHECK(mean == Approx(0.0).margin(0.05));  // five standard errors of 1.4 / sqrt(20000)
  for (std::size_t i = 0; i < 6; ++i) {
    CAPTURE(lags[i]);
    CHECK(sums[i] == Approx(error_covariance(model, Hemisphere::north, first_of_march + Days{5},
                                             first_of_march + Days{5 + lags[i]}))
                         .margin(0.1));
  }
}

TEST_CASE("the members with readings have the conditioned mean, spread and joint course") {
  const SoilErrorModel model = five_cm();
  const ConditionedSoilError error{model, Hemisphere::north, two_months, some_readings};
  const RandomField field{11};
  constexpr int members = 20000;
  std::vector<double> mean(60, 0.0);
  std::vector<double> square(60, 0.0);
  double product = 0.0;
  for (std::uint64_t member = 0; member < members; ++member) {
    const auto path = error.draw(field, member);
    for (std::size_t t = 0; t < 60; ++t) {
      const double left = path[t].kelvin() - error.mean(first_of_march + Days{static_cast<int>(t)}).kelvin();
      mean[t] += left / members;
      square[t] += left * left / members;
    }
    product += (path[20] - error.mean(first_of_march + Days{20})).kelvin() *
               (path[30] - error.mean(first_of_march + Days{30})).kelvin() / members;
  }
  for (std::size_t t = 0; t < 60; ++t) {
    const double sd = error.sd(first_of_march + Days{static_cast<int>(t)}).kelvin();
    CHECK(mean[t] == Approx(0.0).margin(5.0 * sd / std::sqrt(members)));
    CHECK(std::sqrt(square[t]) == Approx(sd).epsilon(0.03));
  }
  // Posterior covariance of days 20 and 30: condition additionally on day 30 and see by how much day 20
  // narrows.
  auto more = some_readings;
  more.push_back(reading(first_of_march + Days{30}, 0.0, 1e-4));
  const double before =
      conditioned_densely(model, Hemisphere::north, first_of_march + Days{20}, some_readings).second;
  const double after = conditioned_densely(model, Hemisphere::north, first_of_march + Days{20}, more).second;
  const double at30 =
      conditioned_densely(model, Hemisphere::north, first_of_march + Days{30}, some_readings).second;
  CHECK(product == Approx(std::sqrt((before - after) * (at30 + 1e-4))).margin(0.02));
}

TEST_CASE("a new reading moves the members and does not reshuffle them") {
  const SoilErrorModel model = five_cm();
  const RandomField field{3};
  const ConditionedSoilError before{model, Hemisphere::north, two_months, {some_readings[1]}};
  const ConditionedSoilError after{
      model, Hemisphere::north, two_months, {some_readings[1], some_readings[5]}};
  const auto shift = [&](std::uint64_t member, std::size_t t) {
    return (after.draw(field, member)[t] - before.draw(field, member)[t]).kelvin();
  };
  // A member moves by what the reading explains of it; far before the reading, all move little.
  double moved_near = 0.0;
  double moved_far = 0.0;
  for (std::uint64_t member = 0; member < 200; ++member) {
    moved_near += std::abs(shift(member, 40)) / 200.0;
    moved_far += std::abs(shift(member, 0)) / 200.0;
  }
  CHECK(moved_far < 0.5 * moved_near);
  // A worthless reading moves nothing at all.
  auto worthless = std::vector<SoilReading>{some_readings[1], reading(first_of_march + Days{30}, 5.0, 1e12)};
  const ConditionedSoilError same{model, Hemisphere::north, two_months, worthless};
  for (std::size_t t = 0; t < 60; ++t) {
    CHECK(same.draw(field, 4)[t].kelvin() == Approx(before.draw(field, 4)[t].kelvin()).margin(1e-5));
  }
}

TEST_CASE("a member has the same error on a day whatever range is asked for") {
  const SoilErrorModel model = five_cm();
  rc::prop("ranges that share days share the errors", [&model] {
    const Day begin = make_day(1999, 12, 1) + Days{*rc::gen::inRange(0, 400)};
    const Day later = begin + Days{*rc::gen::inRange(1, 200)};
    const Day end = later + Days{40};
    const RandomField field{static_cast<std::uint64_t>(*rc::gen::inRange(0, 1000))};
    const auto longer = ConditionedSoilError{model, Hemisphere::north, {begin, end}, {}}.draw(field, 9);
    const auto shorter = ConditionedSoilError{model, Hemisphere::north, {later, end}, {}}.draw(field, 9);
    for (std::size_t t = 0; t < shorter.size(); ++t) {
      const double gap = std::abs((longer[longer.size() - shorter.size() + t] - shorter[t]).kelvin());
      RC_ASSERT(gap < 1e-3);
    }
  });
}

TEST_CASE("more readings never widen the error and a reading day is known to the probe's own error") {
  const SoilErrorModel model = five_cm();
  rc::prop("sd with n + 1 readings <= sd with n", [&model] {
    const int count = *rc::gen::inRange(0, 20);
    std::vector<SoilReading> readings;
    for (int i = 0; i < count; ++i) {
      readings.push_back(
          reading(first_of_march + Days{*rc::gen::inRange(-30, 90)}, *rc::gen::inRange(-30, 30) / 10.0));
    }
    auto more = readings;
    const Day extra = first_of_march + Days{*rc::gen::inRange(0, 60)};
    more.push_back(reading(extra, *rc::gen::inRange(-30, 30) / 10.0));
    const ConditionedSoilError few{model, Hemisphere::north, two_months, readings};
    const ConditionedSoilError many{model, Hemisphere::north, two_months, more};
    for (Day day = two_months.begin(); day < two_months.end(); day += Days{1}) {
      RC_ASSERT(many.sd(day).kelvin() <= few.sd(day).kelvin() + 1e-9);
    }
    RC_ASSERT(many.sd(extra).kelvin() < std::sqrt(0.05));
  });
}

TEST_CASE("an empty range and readings out of reach are harmless") {
  const SoilErrorModel model = five_cm();
  const ConditionedSoilError nothing{
      model, Hemisphere::north, {first_of_march, first_of_march}, some_readings};
  CHECK(nothing.draw(RandomField{1}, 1).empty());
  const ConditionedSoilError far{
      model, Hemisphere::north, two_months, {reading(first_of_march - Days{401}, 3.0)}};
  CHECK(far.mean(first_of_march).kelvin() == 0.0);
}

TEST_CASE("what is kept between draws is never another site's, season's or seed's") {
  const SoilErrorModel model = five_cm();
  const DayRange season{make_day(2026, 6, 25), make_day(2027, 7, 1)};
  struct Origin {
    SoilErrorModel model;
    DayRange days;
    std::uint64_t seed;
    Hemisphere hemisphere;
  };
  std::vector<Origin> origins{{model, season, 1, Hemisphere::north},
                              {model.widened(2.0), season, 1, Hemisphere::north},
                              {model, {season.begin() + Days{1}, season.end()}, 1, Hemisphere::north},
                              {model, {season.begin(), season.end() - Days{1}}, 1, Hemisphere::north},
                              {model, season, 2, Hemisphere::north},
                              {model, season, 1, Hemisphere::south}};
  for (double SoilErrorModel::*number :
       {&SoilErrorModel::slow_days, &SoilErrorModel::fast_lag1, &SoilErrorModel::slow_variance,
        &SoilErrorModel::fast_variance, &SoilErrorModel::constant_variance,
        &SoilErrorModel::annual_cosine_variance, &SoilErrorModel::season_amplitude}) {
    origins.push_back(origins.front());
    origins.back().model.*number *= 0.9;
  }
  const auto drawn = [](const Origin& origin) {
    std::vector<double> errors;
    const ConditionedSoilError error{origin.model, origin.hemisphere, origin.days, {}};
    for (const TemperatureDelta one : error.draw(RandomField{origin.seed}, 7)) errors.push_back(one.kelvin());
    return errors;
  };
  // A thread that has drawn nothing else keeps nothing else.
  const auto afresh = [&](const Origin& origin) {
    return std::async(std::launch::async, [&] { return drawn(origin); }).get();
  };
  std::vector<std::vector<double>> expected;
  for (const Origin& origin : origins) expected.push_back(afresh(origin));
  for (std::size_t i = 1; i < expected.size(); ++i) CHECK(expected[i] != expected.front());
  for (int round = 0; round < 2; ++round) {
    for (std::size_t i = 0; i < origins.size(); ++i) {
      INFO("origin " << i << ", round " << round);
      CHECK(drawn(origins[i]) == expected[i]);
      CHECK(drawn(origins[i]) == expected[i]);
      CHECK(drawn(origins.front()) == expected.front());
    }
  }
}
