// SPDX-License-Identifier: MIT
#include "thermal/day_course.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace soilclock::thermal {

TemperatureDelta DayCourse::mean_excess_above(Temperature level) const {
  if (level <= low) return midpoint(low, high) - level;
  if (level >= high) return {};
  const double range = (high - low).kelvin();
  const double above = (high - level).kelvin();
  if (shape == Shape::triangle) return TemperatureDelta::from_kelvin(above * above / (2.0 * range));
  const double amplitude = range / 2.0;
  const double over_mean = (midpoint(low, high) - level).kelvin();
  const double angle = std::asin(std::clamp(-over_mean / amplitude, -1.0, 1.0));
  const double excess =
      (over_mean * (std::numbers::pi / 2.0 - angle) + amplitude * std::cos(angle)) / std::numbers::pi;
  // The two terms cancel close to the maximum; rounding must not give a negative excess.
  return TemperatureDelta::from_kelvin(std::max(excess, 0.0));
}

Fraction DayCourse::share_above(Temperature level) const {
  if (level >= high) return Fraction::of(0.0);
  if (level <= low) return Fraction::of(1.0);
  const double range = (high - low).kelvin();
  if (shape == Shape::triangle) return Fraction::of((high - level).kelvin() / range);
  const double sine_of_angle = std::clamp((level - midpoint(low, high)).kelvin() / (range / 2.0), -1.0, 1.0);
  return Fraction::of(0.5 - std::asin(sine_of_angle) / std::numbers::pi);
}

DegreeDays degree_days_of(const DayCourse& course, const DegreeDayRule& rule) {
  TemperatureDelta rate = course.mean_excess_above(rule.lower);
  if (rule.upper) {
    const Temperature upper = *rule.upper;
    const TemperatureDelta beyond = course.mean_excess_above(upper);
    const TemperatureDelta span = upper - rule.lower;
    switch (rule.cutoff) {
      case Cutoff::none:
        break;
      case Cutoff::horizontal:
        rate = rate - beyond;
        break;
      case Cutoff::intermediate:
        rate = rate - 2.0 * beyond;
        if (rule.floor_at_zero) rate = rate + course.mean_excess_above(upper + span);
        break;
      case Cutoff::vertical:
        rate = rate - beyond - course.share_above(upper).value() * span;
        break;
    }
  }
  // Only the intermediate cutoff without its floor can truly be negative; elsewhere it is rounding.
  const bool may_be_negative = rule.cutoff == Cutoff::intermediate && !rule.floor_at_zero;
  return DegreeDays::from_celsius_days(may_be_negative ? rate.kelvin() : std::max(rate.kelvin(), 0.0));
}

}  // namespace soilclock::thermal
