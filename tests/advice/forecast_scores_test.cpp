// SPDX-License-Identifier: MIT
#include "advice/hindcast/forecast_scores.hpp"

#include <rapidcheck/catch.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "core/random.hpp"

using namespace soilclock;
using namespace soilclock::advice;

namespace {

constexpr int after_window = 60;

/// The definition: the area between the forecast's staircase and the step of what happened, squared, day by
/// day.
double integral(const DayEnsemble& forecast, Outcome outcome) {
  double area = 0.0;
  for (int day = -50; day < after_window; ++day) {
    const double said = forecast.by(day);
    const double came = day >= outcome.value_or(after_window) ? 1.0 : 0.0;
    area += (said - came) * (said - came);
  }
  return area;
}

std::optional<int> some_day() {
  const int day = *rc::gen::inRange(-10, after_window + 10);
  return day < after_window ? std::optional{day} : std::nullopt;
}

}  // namespace

TEST_CASE("the score equals the integral of the squared difference of the distributions") {
  rc::prop("for any members, weights and outcome, some of them never", [] {
    std::vector<WeightedDay> members;
    for (int n = *rc::gen::inRange(1, 30); n > 0; --n) {
      members.push_back({some_day(), *rc::gen::inRange(1, 50) / 10.0});
    }
    const DayEnsemble forecast{members};
    const Outcome outcome = some_day();
    RC_ASSERT(std::abs(crps(forecast, outcome, after_window) - integral(forecast, outcome)) < 1e-9);
  });
}

TEST_CASE("the score of a normal forecast comes near the published closed form") {
  // Gneiting & Raftery 2007, equation 21: CRPS = s (z (2 Phi(z) - 1) + 2 phi(z) - 1/sqrt(pi)); here z = 1, s
  // = 20.
  const double phi = std::exp(-0.5) / std::sqrt(2.0 * std::numbers::pi);
  const double closed =
      20.0 * ((2.0 * 0.841344746068543 - 1.0) + 2.0 * phi - 1.0 / std::sqrt(std::numbers::pi));
  std::vector<std::optional<int>> days;
  for (int i = 0; i < 2000; ++i) {
    days.emplace_back(static_cast<int>(std::lround(100.0 + 20.0 * normal_quantile((i + 0.5) / 2000.0))));
  }
  CHECK(crps(DayEnsemble::even(days), 120, 300) == Approx(closed).margin(0.05));
}

TEST_CASE("a single day scores its absolute error, and a wrong never what it is off") {
  CHECK(crps(DayEnsemble::even({10}), 14, after_window) == 4.0);
  CHECK(crps(DayEnsemble::even({std::nullopt}), 50, after_window) == 10.0);
  CHECK(crps(DayEnsemble::even({50}), std::nullopt, after_window) == 10.0);
  CHECK(crps(DayEnsemble::even({std::nullopt}), std::nullopt, after_window) == 0.0);
}

TEST_CASE("quantiles are days of the members, and those that never come lie after all others") {
  const auto ten = DayEnsemble::even({9, 1, 2, 3, 4, 5, 6, 7, 8, std::nullopt});
  CHECK(ten.quantile(0.1) == 1);
  CHECK(ten.quantile(0.5) == 5);
  CHECK(ten.quantile(0.9) == 9);
  CHECK_FALSE(ten.quantile(0.95));
  CHECK(ten.by(0) == 0.0);
  CHECK(ten.by(1000) == Approx(0.9));
}

TEST_CASE("a band that ends in never holds every late day and no early one") {
  const auto half = DayEnsemble::even({20, 30, std::nullopt, std::nullopt}).band();
  CHECK_FALSE(covers(half, 19));
  CHECK(covers(half, 20));
  CHECK(covers(half, std::nullopt));
  CHECK(width(half, after_window) == after_window - 20 + 1);
  const Band<std::optional<int>> closed{10, 12, 14};
  CHECK(covers(closed, 14));
  CHECK_FALSE(covers(closed, 15));
  CHECK_FALSE(covers(closed, std::nullopt));
  CHECK(width(closed, after_window) == 5);
}

TEST_CASE("mixing takes the share from the other forecast and nothing from none") {
  const auto early = DayEnsemble::even({10, 12});
  const auto late = DayEnsemble::even({20});
  CHECK(early.mixed_with(late, 0.25).by(15) == Approx(0.75));
  CHECK(early.mixed_with(late, 0.0).by(15) == 1.0);
  CHECK(early.mixed_with(DayEnsemble::even({}), 0.5).by(15) == 1.0);
}

TEST_CASE("honest forecasts give a reliability line on the diagonal, narrow ones do not") {
  const RandomField random{7};
  std::vector<ProbabilitySteps> honest;
  std::vector<ProbabilitySteps> narrow;
  std::vector<std::optional<int>> wide_days;
  std::vector<std::optional<int>> narrow_days;
  for (int i = 0; i < 200; ++i) {
    const double z = normal_quantile((i + 0.5) / 200.0);
    wide_days.emplace_back(static_cast<int>(std::lround(8.0 * z)));
    narrow_days.emplace_back(static_cast<int>(std::lround(3.0 * z)));
  }
  const auto wide_forecast = DayEnsemble::even(wide_days);
  const auto narrow_forecast = DayEnsemble::even(narrow_days);
  for (std::uint64_t i = 0; i < 4000; ++i) {
    const int outcome = static_cast<int>(std::lround(8.0 * random.normal(1, i)));
    honest.push_back(steps_at(wide_forecast, outcome));
    narrow.push_back(steps_at(narrow_forecast, outcome));
  }
  for (const double p : {0.1, 0.3, 0.5, 0.7, 0.9}) CHECK(observed_share(honest, p) == Approx(p).margin(0.03));
  CHECK(observed_share(narrow, 0.1) > 0.25);
  CHECK(observed_share(narrow, 0.9) < 0.75);
  CHECK(std::isnan(observed_share({}, 0.5)));
}
