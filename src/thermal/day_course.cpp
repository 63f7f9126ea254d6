// SPDX-License-Identifier: MIT
#include "thermal/day_course.hpp"

#include "thermal/day_rate.hpp"

// Compiled for wide registers as well, where the compiler can choose when the program starts; products and
// sums stay apart, so the values are the same to the last digit.
#if defined(__x86_64__) && defined(__linux__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define SOILCLOCK_BY_PROCESSOR \
  [[gnu::flatten, gnu::target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default")]]
#else
#define SOILCLOCK_BY_PROCESSOR
#endif

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
