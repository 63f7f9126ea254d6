// SPDX-License-Identifier: MIT
// One quantity behind all curve methods: how far, and for how much of the time, a course of temperature lies
// above a level. Every cutoff rule is a sum of these two.
#pragma once

#include <span>

#include "core/degree_days.hpp"
#include "core/fraction.hpp"
#include "thermal/degree_day_rule.hpp"

namespace soilclock::thermal {

/// Shape of the course between a minimum and a maximum.
enum class Shape { triangle, sine };

/// A day (or half day, or the stretch between two readings) that runs between two temperatures.
struct DayCourse {
  Shape shape = Shape::sine;
  Temperature low;   ///< not above high
  Temperature high;  ///< equal to low: a constant temperature

  /// E(c): time mean of max(T - level, 0). Falls, is convex and continuous in the level.
  /// Source: sine Baskerville & Emin 1969, Ecology 50:514-517; triangle Sevacherian et al. 1977.
  TemperatureDelta mean_excess_above(Temperature level) const;
  /// f(c): share of the time with T > level; exactly at the level does not count as above.
  Fraction share_above(Temperature level) const;
};

/// Mean rate of a course under the rule's thresholds and cutoff, as the degree-days of one whole day of that
/// course: none E(L); horizontal E(L) - E(U); intermediate E(L) - 2 E(U), with the zero floor + E(2U - L);
/// vertical E(L) - E(U) - (U - L) f(U). The rule must have passed checked(); its method is not looked at.
/// Source: as for Cutoff; the form with E and f is derived from those cases.
DegreeDays degree_days_of(const DayCourse& course, const DegreeDayRule& rule);

/// The same for many courses of one shape; all spans have one length. A course with an unknown end gives an
/// unknown value.
void degree_days_of(Shape shape, std::span<const Temperature> low, std::span<const Temperature> high,
                    const DegreeDayRule& rule, std::span<DegreeDays> days);

}  // namespace soilclock::thermal
