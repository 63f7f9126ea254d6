// SPDX-License-Identifier: MIT
#include "report/page/handout_lesson.hpp"

#include <fmt/format.h>

#include "core/number_text.hpp"
#include "report/page/page_parts.hpp"

namespace soilclock::report {

namespace {

using advice::DegreeDayLesson;
using advice::LessonDay;

std::string degrees(const DegreeDayLesson& lesson, double value) {
  return fmt::format("{} {}", number_text(value, 0), lesson.us_units ? "F" : "C");
}

std::string two(double value) { return number_text(value, 2); }

void write_worked(Markup& page, const DegreeDayLesson& lesson) {
  start_table(page, "A worked example, from this site's own spring", "lesson",
              {"Day", "High", "Low", "Mean of the day", "Above the base", "Sum"});
  for (const LessonDay& line : lesson.worked) {
    page.open("tr");
    page.element("th", short_date(line.day), {{"scope", "row"}});
    page.element("td", number_text(line.high, 1));
    page.element("td", number_text(line.low, 1));
    page.element("td", fmt::format("({} + {}) / 2 = {}", number_text(line.high, 1), number_text(line.low, 1),
                                   two(line.mean)));
    const std::string difference = fmt::format("{} - {} = {}", two(line.mean), number_text(lesson.base, 0),
                                               two(line.mean - lesson.base));
    page.element("td", line.above > 0.0 ? difference : difference + ", so 0");
    page.element("td", two(line.sum), {{"class", "sum"}});
    page.close();
  }
  end_table(page);
  page.element(
      "p",
      fmt::format("Take the mean of high and low. Take the base, {}, away. What is below the base counts "
                  "as nothing. Add up.",
                  degrees(lesson, lesson.base)));
}

void write_methods(Markup& page, const DegreeDayLesson& lesson) {
  if (lesson.methods.empty()) return;
  std::string sums;
  for (const advice::MethodSum& sum : lesson.methods)
    sums += fmt::format("{}{} {}", sums.empty() ? "" : ", ", sum.method, number_text(sum.sum, 0));
  page.element(
      "p",
      fmt::format("The same spring, {} to {}, by four ways to sum a day: {}. A threshold means nothing "
                  "without its method.",
                  short_date(lesson.spring.begin(), true), short_date(lesson.spring.end() - Days{1}), sums));
}

void write_worksheet(Markup& page, const DegreeDayLesson& lesson) {
  start_table(page, "Your turn", "lesson worksheet",
              {"Day", "High", "Low", "Mean of the day", "Above the base", "Sum"});
  for (const LessonDay& line : lesson.exercise) {
    page.open("tr");
    page.element("th", short_date(line.day), {{"scope", "row"}});
    page.element("td", number_text(line.high, 1));
    page.element("td", number_text(line.low, 1));
    for (int empty = 0; empty < 3; ++empty) page.element("td", "", {{"class", "blank"}});
    page.close();
  }
  end_table(page);
  page.open("ol", {{"class", "questions"}});
  const std::string asked = number_text(lesson.asked_sum, 0);
  page.element("li", fmt::format("On which day does the sum pass {}?", asked));
  page.element("li", fmt::format("Someone starts on {} instead. On which day does that sum pass {}?",
                                 short_date(lesson.exercise[lesson.late_start].day), asked));
  page.element("li", fmt::format("A day had a high of {} and a low of {}. What does it add?",
                                 number_text(lesson.cold_high, 0), number_text(lesson.cold_low, 0)));
  page.element("li", "Name two things the sum does not know about your turf.");
  page.close();
}

std::string day_or_not(const std::optional<Day>& day) { return day ? short_date(*day) : "not in these days"; }

void write_key(Markup& page, const DegreeDayLesson& lesson) {
  std::string key = "Key. Sums:";
  for (const LessonDay& line : lesson.exercise)
    key += fmt::format(" {} {}{}", short_date(line.day), two(line.sum),
                       &line == &lesson.exercise.back() ? "." : ";");
  key += fmt::format(" 1: {}. 2: {}. 3: nothing, its mean is {}. 4: water, shade, how deep the seed lies.",
                     day_or_not(lesson.passed_on), day_or_not(lesson.passed_on_late),
                     number_text((lesson.cold_high + lesson.cold_low) / 2.0, 0));
  page.element("p", key, {{"class", "answers"}});
}

}  // namespace

void write_lesson(Markup& page, const DegreeDayLesson& lesson) {
  page.open("section", {{"class", "lesson-part"}});
  page.element("h2", fmt::format("Degree-days by hand, base {}", degrees(lesson, lesson.base)));
  write_worked(page, lesson);
  write_methods(page, lesson);
  write_worksheet(page, lesson);
  write_key(page, lesson);
  page.close();
}

}  // namespace soilclock::report
