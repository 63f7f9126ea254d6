// SPDX-License-Identifier: MIT
#include "weather/table/date_order.hpp"

#include <fmt/format.h>

#include <algorithm>
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
  return stamp.short_year ? fmt::format("{:02}/{:02}/{:02}", stamp.a, stamp.b, stamp.c % 100)
                          : fmt::format("{:02}/{:02}/{}", stamp.a, stamp.b, stamp.c);
}

std::string order_word(DateOrder order) {
  return order == DateOrder::day_first     ? "day first"
         : order == DateOrder::month_first ? "month first"
                                           : "year first";
}

/// One way to read a column with two-digit years.
struct ShortYearReading {
  DateOrder order;
  std::size_t gaps = 0;   ///< steps of more than a day between the days in order
  long long median = 0;   ///< the usual step in days
  std::vector<Day> days;  ///< different days in order
};

std::optional<ShortYearReading> read_short_years(const std::vector<LinedStamp>& stamps, DateOrder order) {
  ShortYearReading reading;
  reading.order = order;
  reading.days.reserve(stamps.size());
  for (const LinedStamp& lined : stamps) {
    if (!is_open(lined.stamp)) continue;
    const auto day = day_of(lined.stamp, order);
    if (!day) return std::nullopt;
    reading.days.push_back(*day);
  }
  std::sort(reading.days.begin(), reading.days.end());
  reading.days.erase(std::unique(reading.days.begin(), reading.days.end()), reading.days.end());
  std::vector<long long> steps;
  steps.reserve(reading.days.size());
  for (std::size_t i = 1; i < reading.days.size(); ++i) {
    steps.push_back((reading.days[i] - reading.days[i - 1]).count());
    reading.gaps += steps.back() > 1 ? 1 : 0;
  }
  if (steps.empty()) return reading;
  const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
  std::nth_element(steps.begin(), middle, steps.end());
  reading.median = *middle;
  return reading;
}

/// The wrong order jumps by months or years where the right one steps by days.
constexpr std::size_t clearly_more = 3;

bool clearly_better(const ShortYearReading& a, const ShortYearReading& b) {
  if (a.days == b.days) return true;
  if (a.gaps != b.gaps && a.gaps * clearly_more <= b.gaps) return true;
  // A probe read once a week has gaps in every order.
  return a.gaps <= b.gaps && a.median * static_cast<long long>(clearly_more) <= b.median && a.median > 0;
}

/// The orders in which every date of the column exists.
std::vector<ShortYearReading> possible_orders(const std::vector<LinedStamp>& stamps, bool named_or_dotted) {
  std::vector<ShortYearReading> readings;
  for (const DateOrder order : {DateOrder::day_first, DateOrder::month_first, DateOrder::year_first}) {
    // A named month is never the first part.
    if (named_or_dotted && order == DateOrder::month_first) continue;
    if (auto reading = read_short_years(stamps, order)) readings.push_back(std::move(*reading));
  }
  return readings;
}

/// Two-digit years: the order by the steps over the column.
Result<DateOrder> settle_short_years(const std::vector<ShortYearReading>& readings, const LinedStamp& shown,
                                     int column, ReadingNotes& notes) {
  const bool named_or_dotted = shown.stamp.form == RawStamp::Form::day_first;
  if (named_or_dotted && readings.front().order == DateOrder::day_first &&
      readings.front().days.size() == 1) {
    notes.doubt(fmt::format("the date {} is read day first, as is usual; give --dates to be sure",
                            date_text(shown.stamp)),
                shown.line, column);
    return DateOrder::day_first;
  }
  for (const ShortYearReading& reading : readings) {
    const bool best = std::all_of(readings.begin(), readings.end(), [&](const ShortYearReading& other) {
      return &other == &reading || clearly_better(reading, other);
    });
    if (!best) continue;
    // A day above the 12th proves day or month first as far as they are concerned.
    const bool proved = std::none_of(readings.begin(), readings.end(), [&](const ShortYearReading& other) {
      return other.order != reading.order && other.order != DateOrder::year_first;
    });
    if (!proved || (reading.order == DateOrder::year_first && readings.size() > 1)) {
      notes.doubt(fmt::format("dates such as {} are read {}: only so do the days follow each other; give "
                              "--dates to be sure",
                              date_text(shown.stamp), order_word(reading.order)),
                  shown.line, column);
    }
    return reading.order;
  }
  return fail(notes.problem("the order of day, month and year is not clear", shown.line, column,
                            date_text(shown.stamp), "years of four digits, or days that follow each other",
                            "say it with --dates day-first, month-first or year-first"));
}

}  // namespace

bool is_open(const RawStamp& stamp) {
  return stamp.form == RawStamp::Form::year_last ||
         (stamp.form == RawStamp::Form::day_first && stamp.short_year);
}

std::optional<Day> day_of(const RawStamp& stamp, DateOrder order) {
  const auto checked = [](int year, int month, int day) -> std::optional<Day> {
    if (year < 1700 || year > 2200 || month < 1 || day < 1) return std::nullopt;
    return checked_day(year, static_cast<unsigned>(month), static_cast<unsigned>(day));
  };
  switch (stamp.form) {
    case RawStamp::Form::year_first:
      return checked(stamp.a, stamp.b, stamp.c);
    case RawStamp::Form::day_first:
      if (order == DateOrder::year_first && stamp.short_year)
        return checked(full_year(stamp.a), stamp.b, stamp.c % 100);
      return checked(stamp.c, stamp.b, stamp.a);
    case RawStamp::Form::year_last:
      if (order == DateOrder::month_first) return checked(stamp.c, stamp.a, stamp.b);
      if (order == DateOrder::year_first) return checked(full_year(stamp.a), stamp.b, stamp.c % 100);
      return checked(stamp.c, stamp.b, stamp.a);
    default:
      return std::nullopt;
  }
}

std::optional<Day> stamped_day(const RawStamp& stamp, DateOrder order) {
  constexpr double seconds_a_day = 86400.0;
  if (stamp.form == RawStamp::Form::epoch)
    return Day{Days{static_cast<int>(std::floor(stamp.number / seconds_a_day))}};
  if (stamp.form == RawStamp::Form::serial)
    return Day{Days{static_cast<int>(std::floor(stamp.number)) - serial_of_1970}};
  return day_of(stamp, order);
}

Result<DateOrder> settle_date_order(const std::vector<LinedStamp>& stamps, DateOrder wanted, int column,
                                    ReadingNotes& notes) {
  if (wanted != DateOrder::automatic) return wanted;
  const LinedStamp* day_first = nullptr;
  const LinedStamp* month_first = nullptr;
  const LinedStamp* open = nullptr;
  const auto first_open = std::find_if(stamps.begin(), stamps.end(),
                                       [](const LinedStamp& lined) { return is_open(lined.stamp); });
  const bool all_short =
      first_open != stamps.end() && std::all_of(stamps.begin(), stamps.end(), [](const LinedStamp& lined) {
        return !is_open(lined.stamp) || lined.stamp.short_year;
      });
  if (all_short) {
    const auto readings = possible_orders(stamps, first_open->stamp.form == RawStamp::Form::day_first);
    if (!readings.empty()) return settle_short_years(readings, *first_open, column, notes);
  }
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
  return fail(notes.problem("the order of day and month is not clear", open->line, column,
                            date_text(open->stamp), "a date above the 12th, or days that follow each other",
                            "say it with --dates day-first or --dates month-first"));
}

}  // namespace soilclock::weather
