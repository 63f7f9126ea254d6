// SPDX-License-Identifier: MIT
#include "weather/table/date_order.hpp"

#include <fmt/format.h>

#include <cmath>

namespace soilclock::weather {

namespace {

/// How often two rows that follow each other lie more than a day apart (in either direction).
int jumps(const std::vector<LinedStamp>& stamps, DateOrder order) {
  int count = 0;
  std::optional<Day> before;
  for (const LinedStamp& lined : stamps) {
    if (lined.stamp.form != RawStamp::Form::year_last) continue;
    const auto day = day_of(lined.stamp, order);
    if (!day) return static_cast<int>(stamps.size());
    if (before && std::abs((*day - *before).count()) > 1) ++count;
    before = day;
  }
  return count;
}

std::string date_text(const RawStamp& stamp) {
  return fmt::format("{:02}/{:02}/{}", stamp.a, stamp.b, stamp.c);
}

}  // namespace

std::optional<Day> day_of(const RawStamp& stamp, DateOrder order) {
  const auto checked = [](int year, int month, int day) -> std::optional<Day> {
    if (year < 1700 || year > 2200 || month < 1 || day < 1) return std::nullopt;
    return checked_day(year, static_cast<unsigned>(month), static_cast<unsigned>(day));
  };
  switch (stamp.form) {
    case RawStamp::Form::year_first:
      return checked(stamp.a, stamp.b, stamp.c);
    case RawStamp::Form::day_first:
      return checked(stamp.c, stamp.b, stamp.a);
    case RawStamp::Form::year_last:
      if (order == DateOrder::month_first) return checked(stamp.c, stamp.a, stamp.b);
      if (order == DateOrder::year_first)
        return checked(stamp.a + (stamp.a < 69 ? 2000 : 1900), stamp.b, stamp.c % 100);
      return checked(stamp.c, stamp.b, stamp.a);
    default:
      return std::nullopt;
  }
}

Result<DateOrder> settle_date_order(const std::vector<LinedStamp>& stamps, DateOrder wanted, int column,
                                    ReadingNotes& notes) {
  if (wanted != DateOrder::automatic) return wanted;
  const LinedStamp* day_first = nullptr;
  const LinedStamp* month_first = nullptr;
  const LinedStamp* open = nullptr;
  for (const LinedStamp& lined : stamps) {
    const RawStamp& stamp = lined.stamp;
    if (stamp.form != RawStamp::Form::year_last) continue;
    if (stamp.a > 12 && stamp.b <= 12 && day_first == nullptr) day_first = &lined;
    if (stamp.b > 12 && stamp.a <= 12 && month_first == nullptr) month_first = &lined;
    if (stamp.a != stamp.b && open == nullptr) open = &lined;
  }
  if (day_first != nullptr && month_first != nullptr) {
    const LinedStamp* later = day_first->line > month_first->line ? day_first : month_first;
    return fail(notes.problem(fmt::format("two orders of day and month in one column: line {} ({}) can only "
                                          "be day first, line {} ({}) only month first",
                                          day_first->line, date_text(day_first->stamp), month_first->line,
                                          date_text(month_first->stamp)),
                              later->line, column, date_text(later->stamp), "one order for the whole file",
                              "correct the dates or split the file"));
  }
  if (day_first != nullptr) return DateOrder::day_first;
  if (month_first != nullptr) return DateOrder::month_first;
  if (open == nullptr) return DateOrder::day_first;  // no such stamp, or day and month are equal everywhere
  const int as_day_first = jumps(stamps, DateOrder::day_first);
  const int as_month_first = jumps(stamps, DateOrder::month_first);
  // Real files have gaps; the wrong order jumps by a month at nearly every change of day.
  if (as_day_first != as_month_first &&
      std::min(as_day_first, as_month_first) * 3 <= std::max(as_day_first, as_month_first)) {
    const bool day = as_day_first < as_month_first;
    notes.doubt(
        fmt::format(
            "dates such as {} are read {}: only so do the days run on without jumps; give --dates to be sure",
            date_text(open->stamp), day ? "day first" : "month first"),
        open->line, column);
    return day ? DateOrder::day_first : DateOrder::month_first;
  }
  return fail(notes.problem("the order of day and month cannot be told", open->line, column,
                            date_text(open->stamp), "a date above the 12th, or days that follow each other",
                            "say it with --dates day-first or --dates month-first"));
}

}  // namespace soilclock::weather
