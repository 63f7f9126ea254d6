// SPDX-License-Identifier: MIT
// Laws that hold for every day, and the closed forms against numerical integration of the course itself.
#include <gsl/gsl_integration.h>

#include <rapidcheck/catch.h>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <memory>
#include <numbers>
#include <random>
#include <vector>

#include "celsius_series.hpp"
#include "thermal/day_course.hpp"
#include "thermal/degree_day.hpp"

using namespace soilclock;
using namespace soilclock::thermal;
using tests::c;

namespace {

constexpr double rounding = 1e-9;

/// A day and thresholds on a grid of a tenth of a degree, as records have them.
struct Case {
  double minimum, maximum, lower, upper;
};

Case any_case() {
  const auto tenths = [](int from, int to) { return *rc::gen::inRange(from, to) / 10.0; };
  const double minimum = tenths(-300, 400);
  const double lower = tenths(-50, 250);
  return {minimum, minimum + tenths(0, 300), lower, lower + tenths(1, 250)};
}

double value(Method method, Cutoff cutoff, const Case& day, bool floor_at_zero = true) {
  const DegreeDayRule rule{method, c(day.lower), c(day.upper), cutoff, floor_at_zero};
  return degree_days_of_day(rule, c(day.minimum), c(day.maximum)).value().value.celsius_days();
}

/// The clamped method without its upper threshold.
double clamped_below_only(const Case& day) {
  const DegreeDayRule rule{Method::clamped, c(day.lower), {}, Cutoff::none, true};
  return degree_days_of_day(rule, c(day.minimum), c(day.maximum)).value().value.celsius_days();
}

constexpr Cutoff cutoffs[]{Cutoff::none, Cutoff::horizontal, Cutoff::intermediate, Cutoff::vertical};

/// Rate of development at a temperature, written from the words of each cutoff and not from the closed forms.
double rate_at(double temperature, Cutoff cutoff, const Case& day, bool floor_at_zero) {
  if (temperature <= day.lower) return 0.0;
  const double over = temperature - day.lower;
  if (temperature <= day.upper) return over;
  switch (cutoff) {
    case Cutoff::none:
      return over;
    case Cutoff::horizontal:
      return day.upper - day.lower;
    case Cutoff::vertical:
      return 0.0;
    case Cutoff::intermediate:
      break;
  }
  const double falling = 2.0 * day.upper - day.lower - temperature;
  return floor_at_zero ? std::max(falling, 0.0) : falling;
}

/// Mean rate over the rising half of the course (the falling half is its mirror image), integrated over time
/// from 0 to 1 in pieces between the times at which the course crosses a level where the rate has a kink or a
/// jump.
double integrated(Shape shape, Cutoff cutoff, const Case& day, bool floor_at_zero) {
  const double mean = (day.minimum + day.maximum) / 2.0;
  const double amplitude = (day.maximum - day.minimum) / 2.0;
  const std::function<double(double)> rate = [&](double time) {
    const double temperature = shape == Shape::triangle
                                   ? day.minimum + 2.0 * amplitude * time
                                   : mean - amplitude * std::cos(std::numbers::pi * time);
    return rate_at(temperature, cutoff, day, floor_at_zero);
  };
  std::vector<double> times{0.0, 1.0};
  for (const double level : {day.lower, day.upper, 2.0 * day.upper - day.lower}) {
    if (level <= day.minimum || level >= day.maximum) continue;
    times.push_back(shape == Shape::triangle ? (level - day.minimum) / (2.0 * amplitude)
                                             : std::acos((mean - level) / amplitude) / std::numbers::pi);
  }
  std::sort(times.begin(), times.end());
  gsl_function integrand{
      [](double time, void* f) { return (*static_cast<std::function<double(double)>*>(f))(time); },
      const_cast<std::function<double(double)>*>(&rate)};
  static const std::unique_ptr<gsl_integration_workspace, void (*)(gsl_integration_workspace*)> workspace{
      gsl_integration_workspace_alloc(200), gsl_integration_workspace_free};
  double total = 0.0;
  for (std::size_t i = 1; i < times.size(); ++i) {
    double part = 0.0;
    double error = 0.0;
    gsl_integration_qag(&integrand, times[i - 1], times[i], 1e-11, 1e-11, 200, GSL_INTEG_GAUSS21,
                        workspace.get(), &part, &error);
    total += part;
  }
  return total;
}

}  // namespace

TEST_CASE("closed forms agree with adaptive integration of the course for random days and every cutoff") {
  std::mt19937_64 generator{20200215};
  const auto between = [&](double from, double to) {
    return std::uniform_real_distribution<>{from, to}(generator);
  };
  double worst = 0.0;
  int several_pieces = 0;
  for (int i = 0; i < 4000; ++i) {
    Case day{between(-15.0, 30.0), 0.0, between(0.0, 20.0), 0.0};
    day.maximum = day.minimum + between(0.1, 30.0);
    day.upper = day.lower + between(0.5, 20.0);
    several_pieces += day.minimum < day.lower && day.maximum > day.upper ? 1 : 0;
    for (const Cutoff cutoff : cutoffs) {
      for (const bool floor_at_zero : {true, false}) {
        worst = std::max(worst, std::abs(value(Method::sine, cutoff, day, floor_at_zero) -
                                         integrated(Shape::sine, cutoff, day, floor_at_zero)));
        worst = std::max(worst, std::abs(value(Method::triangle, cutoff, day, floor_at_zero) -
                                         integrated(Shape::triangle, cutoff, day, floor_at_zero)));
      }
    }
  }
  CAPTURE(worst, several_pieces);
  CHECK(worst < 1e-9);
  CHECK(several_pieces > 400);
}

TEST_CASE("the excess of a sine is that of Baskerville and Emin's formula within 1e-12 C") {
  // Ecology 50:514-517 (1969), worked in 80-bit numbers; days up to 60 C wide.
  double worst = 0.0;
  for (const double amplitude : {0.05, 1.0, 7.3, 30.0}) {
    const DayCourse course{Shape::sine, c(-amplitude), c(amplitude)};
    for (int i = -4000; i <= 4000; ++i) {
      const double level = amplitude * i / 4000.0;
      const long double sine = static_cast<long double>(level) / static_cast<long double>(amplitude);
      const long double angle = std::asin(sine);
      const long double exact =
          (static_cast<long double>(amplitude) * std::cos(angle) -
           static_cast<long double>(level) * (std::numbers::pi_v<long double> / 2.0L - angle)) /
          std::numbers::pi_v<long double>;
      const double ours = course.mean_excess_above(c(level)).kelvin();
      worst = std::max(worst, static_cast<double>(std::abs(static_cast<long double>(ours) - exact)));
    }
  }
  CHECK(worst < 1e-12);
  WARN("largest difference " << worst << " C");
}

TEST_CASE("laws of the day values") {
  rc::prop("without cutoff: clamped >= sine >= triangle >= average", [] {
    const Case day = any_case();
    const double sine = value(Method::sine, Cutoff::none, day);
    const double triangle = value(Method::triangle, Cutoff::none, day);
    RC_ASSERT(clamped_below_only(day) >= sine - rounding);
    RC_ASSERT(sine >= triangle - rounding);
    RC_ASSERT(triangle >= value(Method::average, Cutoff::none, day) - rounding);
  });
  rc::prop("all methods are equal on a day between the thresholds", [] {
    Case day = any_case();
    day.lower = day.minimum - *rc::gen::inRange(0, 50) / 10.0;
    day.upper = day.maximum + *rc::gen::inRange(1, 50) / 10.0;
    const double expected = (day.minimum + day.maximum) / 2.0 - day.lower;
    for (const Method method :
         {Method::average, Method::clamped, Method::sine, Method::triangle, Method::four_case}) {
      RC_ASSERT(std::abs(value(method, Cutoff::none, day) - expected) < rounding);
    }
    for (const Cutoff cutoff : cutoffs) {
      RC_ASSERT(std::abs(value(Method::sine, cutoff, day) - expected) < rounding);
      RC_ASSERT(std::abs(value(Method::double_triangle, cutoff, day) - expected) < rounding);
    }
  });
  rc::prop("horizontal is at least intermediate and at least vertical, and none at least horizontal", [] {
    const Case day = any_case();
    for (const Method method :
         {Method::sine, Method::triangle, Method::double_sine, Method::double_triangle}) {
      const double horizontal = value(method, Cutoff::horizontal, day);
      RC_ASSERT(value(method, Cutoff::none, day) >= horizontal - rounding);
      RC_ASSERT(horizontal >= value(method, Cutoff::intermediate, day) - rounding);
      RC_ASSERT(horizontal >= value(method, Cutoff::vertical, day) - rounding);
      RC_ASSERT(value(method, Cutoff::intermediate, day, true) >=
                value(method, Cutoff::intermediate, day, false) - rounding);
      RC_ASSERT(horizontal <= day.upper - day.lower + rounding);
      RC_ASSERT(value(method, Cutoff::vertical, day) >= 0.0);
    }
  });
  rc::prop("Fahrenheit thresholds and extremes give 1.8 times the Celsius value", [] {
    const Case day = any_case();
    const auto f = [](double celsius) { return Temperature::from_fahrenheit(celsius * 1.8 + 32.0); };
    for (const Cutoff cutoff : cutoffs) {
      const DegreeDayRule rule{Method::sine, f(day.lower), f(day.upper), cutoff, true};
      const auto converted = degree_days_of_day(rule, f(day.minimum), f(day.maximum));
      // A jump of the vertical cutoff on a constant day at the threshold may fall to either side after
      // rounding.
      RC_PRE(day.minimum != day.maximum);
      RC_ASSERT(std::abs(converted->value.fahrenheit_days() - 1.8 * value(Method::sine, cutoff, day)) < 1e-4);
    }
  });
  rc::prop("adding a constant to extremes and thresholds changes nothing", [] {
    const Case day = any_case();
    RC_PRE(day.minimum != day.maximum);
    const double shift = *rc::gen::inRange(-200, 200) / 8.0;
    const Case moved{day.minimum + shift, day.maximum + shift, day.lower + shift, day.upper + shift};
    for (const Method method : {Method::average, Method::clamped, Method::four_case}) {
      RC_ASSERT(std::abs(value(method, Cutoff::none, day) - value(method, Cutoff::none, moved)) < rounding);
    }
    for (const Cutoff cutoff : cutoffs) {
      // The square root in the share of a sine near its top turns rounding of 1e-15 into 1e-7.
      RC_ASSERT(std::abs(value(Method::sine, cutoff, day) - value(Method::sine, cutoff, moved)) < 1e-4);
      RC_ASSERT(std::abs(value(Method::triangle, cutoff, day) - value(Method::triangle, cutoff, moved)) <
                rounding);
    }
  });
  rc::prop("the excess above a level falls and is convex and continuous in the level", [] {
    const Case day = any_case();
    const Shape shape = *rc::gen::element(Shape::sine, Shape::triangle);
    const DayCourse course{shape, c(day.minimum), c(day.maximum)};
    const auto excess = [&](double level) { return course.mean_excess_above(c(level)).kelvin(); };
    const double level = *rc::gen::inRange(-400, 800) / 10.0;
    const double step = *rc::gen::inRange(1, 100) / 10.0;
    RC_ASSERT(excess(level + step) <= excess(level) + rounding);
    RC_ASSERT(excess(level - step) + excess(level + step) >= 2.0 * excess(level) - rounding);
    RC_ASSERT(std::abs(excess(level + 1e-7) - excess(level)) <= 1e-7 + rounding);
  });
  rc::prop("the share above a level is the fall of the excess with the level", [] {
    const Case day = any_case();
    RC_PRE(day.maximum - day.minimum > 0.5);
    const Shape shape = *rc::gen::element(Shape::sine, Shape::triangle);
    const DayCourse course{shape, c(day.minimum), c(day.maximum)};
    const double level = day.minimum + (day.maximum - day.minimum) * (*rc::gen::inRange(5, 95)) / 100.0;
    const double h = 1e-5;
    const double slope =
        (course.mean_excess_above(c(level - h)) - course.mean_excess_above(c(level + h))).kelvin() / (2 * h);
    RC_ASSERT(std::abs(course.share_above(c(level)).value() - slope) < 1e-5);
  });
  rc::prop(
      "clamped exceeds the average by half of the smaller excess where the lower threshold is crossed", [] {
        Case day = any_case();
        day.lower = day.minimum + *rc::gen::inRange(1, 150) / 10.0;
        day.maximum = day.lower + *rc::gen::inRange(1, 150) / 10.0;
        day.upper = day.lower + 20.0;
        const double expected = std::min((day.lower - day.minimum) / 2.0, (day.maximum - day.lower) / 2.0);
        RC_ASSERT(std::abs(clamped_below_only(day) - value(Method::average, Cutoff::none, day) - expected) <
                  rounding);
      });
  rc::prop("the four-case rule stays within 0.0342 of the range of the sine", [] {
    const Case day = any_case();
    const double difference =
        value(Method::four_case, Cutoff::none, day) - value(Method::sine, Cutoff::none, day);
    RC_ASSERT(std::abs(difference) <= 0.0342 * (day.maximum - day.minimum) + rounding);
  });
}

TEST_CASE("the largest difference between four-case and sine is reached where the mean is the base") {
  const Case day{0.0, 20.0, 10.0, 90.0};
  const double difference =
      value(Method::sine, Cutoff::none, day) - value(Method::four_case, Cutoff::none, day);
  // alpha / pi - alpha / 4 with alpha = 10.
  CHECK(difference / 20.0 == Approx(0.5 * (1.0 / std::numbers::pi - 0.25)));
  CHECK(difference / 20.0 == Approx(0.0342).margin(5e-5));
}
