// SPDX-License-Identifier: MIT
#include "thermal/degree_day.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "core/number_text.hpp"
#include "thermal/day_course.hpp"

namespace soilclock::thermal {

namespace {

constexpr int minutes_a_day = 1440;
/// A day with less than this is not a day: three quarters, as for a partial day where files are read.
constexpr int least_minutes_covered = 18 * 60;

DegreeDays average_day(const DegreeDayRule& rule, Temperature minimum, Temperature maximum) {
  const Temperature mean = midpoint(minimum, maximum);
  return degree_days_of({Shape::triangle, mean, mean}, rule);
}

DegreeDays clamped_day(const DegreeDayRule& rule, Temperature minimum, Temperature maximum) {
  const auto clamped = [&](Temperature value) {
    const Temperature raised = std::max(value, rule.lower);
    return rule.upper ? std::min(raised, *rule.upper) : raised;
  };
  const TemperatureDelta rate = midpoint(clamped(minimum), clamped(maximum)) - rule.lower;
  return DegreeDays::from_celsius_days(rate.kelvin());
}

DegreeDays four_case_day(const DegreeDayRule& rule, Temperature minimum, Temperature maximum) {
  const TemperatureDelta mean_over = midpoint(minimum, maximum) - rule.lower;
  const TemperatureDelta above = maximum - rule.lower;
  const TemperatureDelta below = rule.lower - minimum;
  const TemperatureDelta nothing;
  if (below <= nothing) return DegreeDays::from_celsius_days(mean_over.kelvin());
  if (above <= nothing) return {};
  if (mean_over >= nothing) return DegreeDays::from_celsius_days((above * 0.5 - below * 0.25).kelvin());
  return DegreeDays::from_celsius_days((above * 0.25).kelvin());
}

DayValue double_day(Shape shape, const DegreeDayRule& rule, Temperature minimum, Temperature maximum,
                    std::optional<Temperature> next_minimum) {
  const Temperature next = next_minimum.value_or(minimum);
  const DegreeDays rising = degree_days_of({shape, minimum, maximum}, rule);
  const DegreeDays falling = degree_days_of({shape, std::min(next, maximum), std::max(next, maximum)}, rule);
  return {(rising + falling) * 0.5, !next_minimum.has_value()};
}

std::optional<Problem> bad_extremes(Temperature minimum, Temperature maximum) {
  if (!minimum.known() || !maximum.known()) {
    return Problem{Family::data, "a day without its minimum or maximum has no degree-days", {}, {},
                   {},           "fill the gap first or count the day as missing"};
  }
  if (maximum < minimum) {
    return Problem{
        Family::data,
        "the day's minimum lies above its maximum",
        {},
        fmt::format("{} C and {} C", number_text(minimum.celsius(), 1), number_text(maximum.celsius(), 1)),
        {},
        "correct the record; the mean would hide the mistake"};
  }
  return std::nullopt;
}

std::optional<Problem> bad_readings(std::span<const Reading> readings) {
  if (readings.size() < 2) {
    return Problem{
        Family::data, "a day needs at least two readings", {}, std::to_string(readings.size()), {}, {}};
  }
  int before = -1;
  for (const Reading& reading : readings) {
    if (!reading.temperature.known()) {
      return Problem{Family::data, "a reading without a temperature has no degree-days",
                     {},           {},
                     {},           "leave the reading out; the lines between its neighbors bridge it"};
    }
    if (reading.minute_of_day <= before || reading.minute_of_day >= minutes_a_day) {
      return Problem{Family::data,
                     "the times of a day's readings must rise",
                     {},
                     fmt::format("minute {}", reading.minute_of_day),
                     "minutes 0 to 1439, each later than the one before",
                     "cut the days by standard time, where no hour comes twice"};
    }
    before = reading.minute_of_day;
  }
  return std::nullopt;
}

bool divide_the_day_evenly(std::span<const Reading> readings) {
  const int step = readings[1].minute_of_day - readings[0].minute_of_day;
  if (step * static_cast<int>(readings.size()) != minutes_a_day) return false;
  for (std::size_t i = 1; i < readings.size(); ++i) {
    if (readings[i].minute_of_day - readings[i - 1].minute_of_day != step) return false;
  }
  return true;
}

}  // namespace

std::optional<Problem> extremes_problem(const DegreeDayRule& rule, Temperature minimum, Temperature maximum) {
  if (auto problem = bad_extremes(minimum, maximum)) return problem;
  if (rule.method != Method::hourly) return std::nullopt;
  return Problem{Family::request,
                 "the method hourly needs readings within the day",
                 {},
                 {},
                 {},
                 "give an hourly record or take the method sine"};
}

DayValue value_of_day(const DegreeDayRule& rule, Temperature minimum, Temperature maximum,
                      std::optional<Temperature> next_minimum) {
  if (next_minimum && !next_minimum->known()) next_minimum.reset();
  switch (rule.method) {
    case Method::average:
      return {average_day(rule, minimum, maximum)};
    case Method::clamped:
      return {clamped_day(rule, minimum, maximum)};
    case Method::triangle:
      return {degree_days_of({Shape::triangle, minimum, maximum}, rule)};
    case Method::sine:
      return {degree_days_of({Shape::sine, minimum, maximum}, rule)};
    case Method::double_triangle:
      return double_day(Shape::triangle, rule, minimum, maximum, next_minimum);
    case Method::double_sine:
      return double_day(Shape::sine, rule, minimum, maximum, next_minimum);
    case Method::four_case:
      return {four_case_day(rule, minimum, maximum)};
    case Method::hourly:
      break;
  }
  return {};
}

Result<DayValue> degree_days_of_day(const DegreeDayRule& rule, Temperature minimum, Temperature maximum,
                                    std::optional<Temperature> next_minimum) {
  if (auto valid = checked(rule); !valid) return fail(valid.error());
  if (auto problem = extremes_problem(rule, minimum, maximum)) return fail(*problem);
  return value_of_day(rule, minimum, maximum, next_minimum);
}

Result<DegreeDays> degree_days_of_readings(const DegreeDayRule& rule, std::span<const Reading> readings) {
  if (auto valid = checked(rule); !valid) return fail(valid.error());
  if (rule.method != Method::hourly) {
    return fail({Family::request,
                 "this method works on the day's extremes, not on readings",
                 {},
                 std::string{name(rule.method)},
                 "hourly",
                 {}});
  }
  if (auto problem = bad_readings(readings)) return fail(*problem);
  DegreeDays weighted;
  if (divide_the_day_evenly(readings)) {
    for (const Reading& reading : readings) {
      weighted += degree_days_of({Shape::triangle, reading.temperature, reading.temperature}, rule);
    }
    return weighted * (1.0 / static_cast<double>(readings.size()));
  }
  const int covered = readings.back().minute_of_day - readings.front().minute_of_day;
  if (covered < least_minutes_covered) {
    return fail({Family::data,
                 "the readings cover too little of the day",
                 {},
                 fmt::format("{} minutes", covered),
                 fmt::format("at least {}", least_minutes_covered),
                 "count the day as missing"});
  }
  for (std::size_t i = 1; i < readings.size(); ++i) {
    const auto [low, high] = std::minmax(readings[i - 1].temperature, readings[i].temperature);
    const int minutes = readings[i].minute_of_day - readings[i - 1].minute_of_day;
    weighted += degree_days_of({Shape::triangle, low, high}, rule) * static_cast<double>(minutes);
  }
  return weighted * (1.0 / static_cast<double>(covered));
}

}  // namespace soilclock::thermal
