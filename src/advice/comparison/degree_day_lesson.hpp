// SPDX-License-Identifier: MIT
// Degree-days by hand: a worked example from the site's own spring, a worksheet and its key.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/dates.hpp"
#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/temperature.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::advice {

/// One line of the example, in the reader's degrees. High and low are rounded to a tenth first, so that the
/// line can be followed by hand.
struct LessonDay {
  Day day{};
  double high = 0.0;
  double low = 0.0;
  double mean = 0.0;
  double above = 0.0;  ///< mean less base, or 0
  double sum = 0.0;    ///< through this day
};

/// A sum over the whole spring by one method.
struct MethodSum {
  std::string method;
  double sum = 0.0;
};

struct DegreeDayLesson {
  bool us_units = false;
  double base = 0.0;
  std::vector<LessonDay> worked;
  std::vector<LessonDay> exercise;  ///< the days after; its sum starts anew
  double asked_sum = 0.0;           ///< "on which day does the sum pass this?"
  std::optional<Day> passed_on;
  std::size_t late_start = 0;  ///< line of the exercise from which a second sum starts
  std::optional<Day> passed_on_late;
  double cold_high = 0.0;  ///< a day that adds nothing
  double cold_low = 0.0;
  DayRange spring;  ///< the days of the method sums
  std::vector<MethodSum> methods;
};

/// The lesson from the latest spring (March and April; September and October in the south) that was over
/// before `on`; empty where no twelve days in a row suit: some below the base, then some above.
std::optional<DegreeDayLesson> degree_day_lesson(const weather::DailyWeather& daily, const Place& place,
                                                 Day on, Temperature base, bool us_units);

}  // namespace soilclock::advice
