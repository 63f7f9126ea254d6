// SPDX-License-Identifier: MIT
#include "thermal/day_course.hpp"

#include "core/by_processor.hpp"
#include "thermal/day_rate.hpp"

namespace soilclock::thermal {

TemperatureDelta DayCourse::mean_excess_above(Temperature level) const {
  const double least = low.celsius();
  const double most = high.celsius();
  return TemperatureDelta::from_kelvin(
      shape == Shape::sine ? day_rate::mean_excess<Shape::sine>(least, most, level.celsius())
                           : day_rate::mean_excess<Shape::triangle>(least, most, level.celsius()));
}

Fraction DayCourse::share_above(Temperature level) const {
  const double least = low.celsius();
  const double most = high.celsius();
  return Fraction::of(shape == Shape::sine
                          ? day_rate::share_above<Shape::sine>(least, most, level.celsius())
                          : day_rate::share_above<Shape::triangle>(least, most, level.celsius()));
}

DegreeDays degree_days_of(const DayCourse& course, const DegreeDayRule& rule) {
  const day_rate::Thresholds to{rule};
  return DegreeDays::from_celsius_days(
      day_rate::with_rule(course.shape, rule, [&]<Shape shape, Cutoff cutoff>() {
        return day_rate::degree_days<shape, cutoff>(course.low.celsius(), course.high.celsius(), to);
      }));
}

SOILCLOCK_BY_PROCESSOR
void degree_days_of(Shape shape, std::span<const Temperature> low, std::span<const Temperature> high,
                    const DegreeDayRule& rule, std::span<DegreeDays> days) {
  const day_rate::Thresholds to{rule};
  day_rate::with_rule(shape, rule, [&]<Shape of, Cutoff cutoff>() {
    for (std::size_t i = 0; i < days.size(); ++i) {
      days[i] = DegreeDays::from_celsius_days(
          day_rate::degree_days<of, cutoff>(low[i].celsius(), high[i].celsius(), to));
    }
  });
}

}  // namespace soilclock::thermal
