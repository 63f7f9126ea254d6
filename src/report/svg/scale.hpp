// SPDX-License-Identifier: MIT
// From values and days to places in a picture.
#pragma once

#include <vector>

#include "core/dates.hpp"

namespace soilclock::report {

/// Maps [from, to] to [at_from, at_to] in a straight line; values outside lie outside. `from` and `to`
/// differ.
class LinearScale {
 public:
  LinearScale(double from, double to, double at_from, double at_to)
      : from_{from}, at_from_{at_from}, step_{(at_to - at_from) / (to - from)} {}
  double operator()(double value) const { return at_from_ + (value - from_) * step_; }

 private:
  double from_;
  double at_from_;
  double step_;
};

/// Round values that cover [low, high] with a step of 1, 2 or 5 times a power of ten: at most `most` steps,
/// two values at least.
std::vector<double> round_ticks(double low, double high, int most);

/// Places the mornings of a range of days; days outside lie outside.
class TimeScale {
 public:
  TimeScale(DayRange days, double at_begin, double at_end)
      : days_{days}, scale_{0.0, static_cast<double>(days.size()), at_begin, at_end} {}
  /// Where the day begins.
  double operator()(Day day) const { return scale_(static_cast<double>((day - days_.begin()).count())); }
  /// The same, moved to the nearer end of the picture where it lies outside.
  double held(Day day) const;
  const DayRange& days() const { return days_; }
  bool shows(Day day) const { return days_.contains(day); }

 private:
  DayRange days_;
  LinearScale scale_;
};

/// The first days of the months in a range.
std::vector<Day> month_starts(DayRange days);

/// The Mondays in a range.
std::vector<Day> mondays(DayRange days);

}  // namespace soilclock::report
