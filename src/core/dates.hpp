// SPDX-License-Identifier: MIT
// Civil days. The only file that names the date library; time zones live in time_zone.hpp.
#pragma once

#include <date/date.h>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace soilclock {

/// A civil day; which clock cuts it (local standard time unless a source says otherwise) travels with the
/// series. Day - Day is a number of Days; Day + Day does not compile.
using Day = date::sys_days;
using Days = date::days;

inline constexpr Days one_week{7};
inline constexpr std::size_t week_days = 7;  ///< one_week as a count of daily values
inline constexpr int minutes_a_day = 1440;

/// The day y-m-d; the date must exist (a programming error otherwise). For text from people use
/// parse_iso_day.
Day make_day(int year, unsigned month, unsigned day_of_month);

/// Year, month and day of the month of a day.
struct CivilDate {
  int year;
  unsigned month;
  unsigned day;
};
CivilDate civil(Day day);

/// The day if the three numbers name one that exists (29 February only in leap years).
std::optional<Day> checked_day(int year, unsigned month, unsigned day_of_month);

/// The same calendar day so many years earlier; February 29 becomes February 28.
Day years_before(Day day, int years);

/// Reads "YYYY-MM-DD" exactly; nothing else is accepted.
std::optional<Day> parse_iso_day(std::string_view text);

/// "YYYY-MM-DD".
std::string iso(Day day);

/// "Oct 20" or, with the year, "Oct 20, 2026": for sentences.
std::string short_date(Day day, bool with_year = false);

/// "Thursday".
std::string weekday_name(Day day);

/// 1 January = 1, 31 December = 365 or 366.
int day_of_year(Day day);

/// The Monday on or before the day.
Day monday_of(Day day);

/// Half-open range of days [begin, end); empty when begin == end.
class DayRange {
 public:
  DayRange() = default;
  /// Swapped ends give an empty range at begin.
  DayRange(Day begin, Day end) : begin_{begin}, end_{end < begin ? begin : end} {}
  Day begin() const { return begin_; }
  Day end() const { return end_; }
  int size() const { return static_cast<int>((end_ - begin_).count()); }
  bool empty() const { return begin_ == end_; }
  bool contains(Day day) const { return begin_ <= day && day < end_; }
  friend bool operator==(const DayRange&, const DayRange&) = default;

 private:
  Day begin_{};
  Day end_{};
};

}  // namespace soilclock
