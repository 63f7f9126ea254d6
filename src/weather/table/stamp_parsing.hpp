// SPDX-License-Identifier: MIT
// One date or time field to its parts, without deciding what cannot be decided from one field.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace soilclock::weather {

/// Parts of a date as written. Which of `a` and `b` is the day is decided for the whole column.
struct RawStamp {
  enum class Form : unsigned char {
    year_first,  ///< a year, b month, c day
    year_last,   ///< a and b day and month in unknown order, c year
    day_first,   ///< a day, b month, c year: named months and dotted dates
    serial,      ///< number of days since 30 December 1899, with fraction
    epoch        ///< seconds since 1970 in UTC
  };
  // A long file has millions of them; the order of the fields keeps each small.
  Form form = Form::year_first;
  bool short_year = false;  ///< `c` was written with two digits: it may be the day, and `a` the year
  int a = 0;
  int b = 0;
  int c = 0;
  double number = 0.0;                         ///< serial and epoch
  std::optional<std::int16_t> minute;          ///< of the day, up to 1440
  std::optional<std::int16_t> offset_minutes;  ///< east of UTC
};

/// 1 January 1970 in the day count of spreadsheets, which starts in 1900.
inline constexpr int serial_of_1970 = 25569;

/// Two-digit years: 00-68 are 2000-2068, 69-99 are 1969-1999 (the rule of POSIX strptime).
int full_year(int two_digits);

/// Reads a date, alone or with a time of day. Nothing for a text that is no date; the date need not exist.
std::optional<RawStamp> parse_stamp(std::string_view field);

/// Minutes after midnight, 0 to 1440, of "14:30", "2:30 p.m.", "24:00", "1430", "700"; seconds are cut off.
/// A whole number up to 24 is an hour when `whole_hours` says so, else hours and minutes written together.
std::optional<int> parse_time_of_day(std::string_view field, bool whole_hours);

}  // namespace soilclock::weather
