// SPDX-License-Identifier: MIT
// The formulas behind all curve methods on plain numbers, without branches that depend on the day: a loop
// over the days of a record is worked on several days at a time. They are always compiled into that loop,
// which a compiler would think too much of.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "thermal/day_course.hpp"

namespace soilclock::thermal::day_rate {

/// Mean excess of a sine of amplitude 1 above a level that lies 1 - u above its mean, for 0 <= u <= 1:
/// exactly (sqrt(1 - s s) - s acos(s)) / pi with s = 1 - u. That over u sqrt(u) is smooth; the polynomial is
/// its Chebyshev interpolation of degree 14 on 0..1 (64 nodes, cut after 15 terms, 60 decimal digits), turned
/// into powers of u (basis: derived). Within 1e-14 of the exact value, and several times as fast.
[[gnu::always_inline]] inline double excess_of_unit_sine(double u) {
  constexpr std::array<double, 15> terms{
      0.30010543871903583,    0.015005271935745154,    0.0024115615762599816,  0.0005582314070676411,
      0.00015542337292243828, 4.8359229348693604e-05,  1.661978230560396e-05,  4.39965016667469e-06,
      5.983063253013297e-06,  -6.785101824494302e-06,  1.0959837762435778e-05, -1.0219736007913519e-05,
      6.75178938298752e-06,   -2.6049701781642724e-06, 4.956285501680804e-07};
  double sum = terms.back();
  for (std::size_t i = terms.size() - 1; i-- > 0;) sum = sum * u + terms[i];
  return u * std::sqrt(u) * sum;
}

/// E(level) of a course between two temperatures, all in Celsius: DayCourse::mean_excess_above.
template <Shape shape>
[[gnu::always_inline]] inline double mean_excess(double low, double high, double level) {
  const double range = high - low;
  const double over_mean = low + range * 0.5 - level;
  if constexpr (shape == Shape::sine) {
    const double amplitude = range * 0.5;
    // What a sine loses below a level it gains above the level mirrored at its mean: one half is enough. A
    // course without amplitude has no part of a sine.
    const double from_extreme = std::max(0.0, (amplitude - std::abs(over_mean)) / amplitude);
    return std::max(over_mean, 0.0) + amplitude * excess_of_unit_sine(from_extreme);
  } else {
    const double above = high - level;
    const double cut = above * above / (2.0 * range);
    return level <= low ? over_mean : (level >= high ? 0.0 : cut);
  }
}

/// f(level), the share of the time above it: DayCourse::share_above.
template <Shape shape>
double share_above(double low, double high, double level) {
  if (level >= high) return 0.0;
  if (level <= low) return 1.0;
  const double range = high - low;
  if constexpr (shape == Shape::triangle) return (high - level) / range;
  const double sine_of_angle = std::clamp((level - (low + range * 0.5)) / (range * 0.5), -1.0, 1.0);
  return 0.5 - std::asin(sine_of_angle) / std::numbers::pi;
}

/// A rule's thresholds in Celsius, looked up once for all days.
struct Thresholds {
  explicit Thresholds(const DegreeDayRule& rule)
      : lower{rule.lower.celsius()},
        upper{rule.upper ? rule.upper->celsius() : lower},
        // Only the intermediate cutoff without its floor can truly be negative; elsewhere it is rounding.
        may_be_negative{rule.cutoff == Cutoff::intermediate && !rule.floor_at_zero} {}
  double lower;
  double upper;
  bool may_be_negative;
};

/// degree_days_of() for a course between two temperatures.
template <Shape shape, Cutoff cutoff>
[[gnu::always_inline]] inline double degree_days(double low, double high, const Thresholds& to) {
  double rate = mean_excess<shape>(low, high, to.lower);
  if constexpr (cutoff != Cutoff::none) {
    const double beyond = mean_excess<shape>(low, high, to.upper);
    const double span = to.upper - to.lower;
    if constexpr (cutoff == Cutoff::horizontal) rate -= beyond;
    if constexpr (cutoff == Cutoff::vertical)
      rate = rate - beyond - share_above<shape>(low, high, to.upper) * span;
    if constexpr (cutoff == Cutoff::intermediate) {
      rate -= 2.0 * beyond;
      const double floored = rate + mean_excess<shape>(low, high, to.upper + span);
      rate = to.may_be_negative ? rate : floored;
    }
  }
  return to.may_be_negative ? rate : std::max(rate, 0.0);
}

/// Calls `use.template operator()<shape, cutoff>()` with those of a rule; without an upper threshold there is
/// no cutoff.
template <Shape shape, class Use>
auto with_cutoff(const DegreeDayRule& rule, const Use& use) {
  switch (rule.upper ? rule.cutoff : Cutoff::none) {
    case Cutoff::horizontal:
      return use.template operator()<shape, Cutoff::horizontal>();
    case Cutoff::intermediate:
      return use.template operator()<shape, Cutoff::intermediate>();
    case Cutoff::vertical:
      return use.template operator()<shape, Cutoff::vertical>();
    case Cutoff::none:
      break;
  }
  return use.template operator()<shape, Cutoff::none>();
}

template <class Use>
auto with_rule(Shape shape, const DegreeDayRule& rule, const Use& use) {
  return shape == Shape::sine ? with_cutoff<Shape::sine>(rule, use) : with_cutoff<Shape::triangle>(rule, use);
}

}  // namespace soilclock::thermal::day_rate
