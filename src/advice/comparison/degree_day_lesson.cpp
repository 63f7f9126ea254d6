// SPDX-License-Identifier: MIT
#include "advice/comparison/degree_day_lesson.hpp"

#include <algorithm>
#include <cmath>

#include "emergence/emergence_model.hpp"
#include "thermal/accumulation.hpp"

namespace soilclock::advice {

namespace {

constexpr int worked_days = 5;
constexpr int exercise_days = 6;

double tenth(double value) { return std::round(value * 10.0) / 10.0; }

double shown(Temperature temperature, bool us) {
  return tenth(us ? temperature.fahrenheit() : temperature.celsius());
}

/// March and April of the latest year in which they were over before `on`.
DayRange latest_spring(Day on, Hemisphere hemisphere) {
  const emergence::MonthDay march{3, 1};
  const emergence::MonthDay may{5, 1};
  Season season = season_of(on, SeasonKind::summer, hemisphere);
  if (may.in(season) > on) season = season.previous();
  return {march.in(season), may.in(season)};
}

std::vector<LessonDay> lines(const weather::DailyWeather& daily, DayRange days, double base, bool us) {
  std::vector<LessonDay> result;
  double sum = 0.0;
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    const auto low = daily.air_min.at(day);
    const auto high = daily.air_max.at(day);
    if (!low || !high) return {};
    LessonDay line{day, shown(*high, us), shown(*low, us), 0.0, 0.0, 0.0};
    line.mean = (line.high + line.low) / 2.0;
    line.above = std::max(0.0, line.mean - base);
    sum += line.above;
    line.sum = sum;
    result.push_back(line);
  }
  return result;
}

/// An example shows both: days that add nothing and days that add.
bool teaches(const std::vector<LessonDay>& days) {
  if (days.size() != worked_days) return false;
  const auto adding = std::count_if(days.begin(), days.end(), [](const auto& d) { return d.above > 0.0; });
  return adding >= 2 && adding <= worked_days - 1 && days.front().above == 0.0 && days.back().above > 0.0;
}

/// First day on which the lines from `start` on sum up to more than `sum`.
std::optional<Day> passes(const std::vector<LessonDay>& days, std::size_t start, double sum) {
  double so_far = 0.0;
  for (std::size_t i = start; i < days.size(); ++i) {
    so_far += days[i].above;
    if (so_far > sum) return days[i].day;
  }
  return std::nullopt;
}

std::vector<MethodSum> method_sums(const weather::DailyWeather& daily, DayRange days, Temperature base,
                                   bool us) {
  std::vector<MethodSum> sums;
  for (const auto method : {thermal::Method::average, thermal::Method::triangle, thermal::Method::sine,
                            thermal::Method::clamped}) {
    const auto summed = thermal::accumulate(daily.air_min, daily.air_max,
                                            {method, base, {}, thermal::Cutoff::none, true}, days);
    if (!summed || summed->missing_days > 0) return {};
    const double total = summed->total().celsius_days();
    sums.push_back({std::string{thermal::name(method)}, us ? total * 1.8 : total});
  }
  return sums;
}

void ask(DegreeDayLesson& lesson) {
  const double total = lesson.exercise.back().sum;
  lesson.asked_sum = std::max(1.0, std::floor(0.4 * total / 5.0) * 5.0);
  lesson.late_start = 2;
  lesson.passed_on = passes(lesson.exercise, 0, lesson.asked_sum);
  lesson.passed_on_late = passes(lesson.exercise, lesson.late_start, lesson.asked_sum);
  lesson.cold_high = lesson.base + 8.0;
  lesson.cold_low = lesson.base - 16.0;
}

}  // namespace

std::optional<DegreeDayLesson> degree_day_lesson(const weather::DailyWeather& daily, const Place& place,
                                                 Day on, Temperature base, bool us_units) {
  DegreeDayLesson lesson;
  lesson.us_units = us_units;
  lesson.base = shown(base, us_units);
  lesson.spring = latest_spring(on, place.hemisphere());
  for (Day first = lesson.spring.begin(); first < lesson.spring.end(); first += Days{1}) {
    const Day next = first + Days{worked_days};
    lesson.worked = lines(daily, {first, next}, lesson.base, us_units);
    if (!teaches(lesson.worked)) continue;
    lesson.exercise = lines(daily, {next, next + Days{exercise_days}}, lesson.base, us_units);
    if (lesson.exercise.empty() || lesson.exercise.back().sum < 10.0) continue;
    ask(lesson);
    lesson.methods = method_sums(daily, lesson.spring, base, us_units);
    return lesson;
  }
  return std::nullopt;
}

}  // namespace soilclock::advice
