// SPDX-License-Identifier: MIT
// Degree-days of one day by any method.
#pragma once

#include <optional>
#include <span>

#include "thermal/degree_day_rule.hpp"

namespace soilclock::thermal {

/// Degree-days of one day and whether a later minimum can still change them.
struct DayValue {
  DegreeDays value;
  bool provisional = false;  ///< a double method without the next day's minimum, which used the day's own
};

/// Degree-days of a day from its extremes. `next_minimum` is used by the double methods only; when it lies
/// above the day's maximum (a front) the half day runs between the two. Equal extremes are a constant
/// temperature. Problems: a rule that checked() refuses or the method hourly (request); an unknown extreme or
/// a minimum above its maximum (data). Source: see Method; four-case rule: Met Eireann, page on degree days,
/// read in full.
Result<DayValue> degree_days_of_day(const DegreeDayRule& rule, Temperature minimum, Temperature maximum,
                                    std::optional<Temperature> next_minimum = {});

/// What keeps a day's extremes from having degree-days, as degree_days_of_day says it of a rule that is in
/// order.
std::optional<Problem> extremes_problem(const DegreeDayRule& rule, Temperature minimum, Temperature maximum);

/// degree_days_of_day for a rule and extremes without a problem: nothing is looked at again.
DayValue value_of_day(const DegreeDayRule& rule, Temperature minimum, Temperature maximum,
                      std::optional<Temperature> next_minimum = {});

/// One reading within a day.
struct Reading {
  int minute_of_day = 0;
  Temperature temperature;
};

/// Degree-days of a day from readings in order of time. Readings that divide the whole day evenly are
/// averaged, each as constant; otherwise straight lines are drawn between them (trapezoids, with the
/// thresholds cut where the lines cross them) and the mean of the part covered stands for the day. Problems:
/// a rule that checked() refuses or a method other than hourly (request); an unknown reading, times that do
/// not rise within 0..1439, fewer than two readings, or less than 18 hours covered (data).
Result<DegreeDays> degree_days_of_readings(const DegreeDayRule& rule, std::span<const Reading> readings);

}  // namespace soilclock::thermal
