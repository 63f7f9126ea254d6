// SPDX-License-Identifier: MIT
#include "core/dates.hpp"

#include <fmt/format.h>

#include <array>
#include <cassert>
#include <charconv>

namespace soilclock {

Day make_day(int year, unsigned month, unsigned day_of_month) {
  const date::year_month_day ymd{date::year{year}, date::month{month}, date::day{day_of_month}};
  assert(ymd.ok());
  return Day{ymd};
}

CivilDate civil(Day day) {
  const date::year_month_day ymd{day};
  return {int{ymd.year()}, unsigned{ymd.month()}, unsigned{ymd.day()}};
}

std::optional<Day> checked_day(int year, unsigned month, unsigned day_of_month) {
  const date::year_month_day ymd{date::year{year}, date::month{month}, date::day{day_of_month}};
  if (!ymd.ok()) return std::nullopt;
  return Day{ymd};
}

Day years_before(Day day, int years) {
  const CivilDate date = civil(day);
  const auto same = checked_day(date.year - years, date.month, date.day);
  return same ? *same : make_day(date.year - years, date.month, date.day - 1);
}

std::optional<Day> parse_iso_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto number = [&](std::size_t from, std::size_t count) -> std::optional<int> {
    int value = 0;
    const char* begin = text.data() + from;
    const auto [end, error] = std::from_chars(begin, begin + count, value);
    if (error != std::errc{} || end != begin + count || *begin == '-') return std::nullopt;
    return value;
  };
  const auto year = number(0, 4);
  const auto month = number(5, 2);
  const auto day = number(8, 2);
  if (!year || !month || !day) return std::nullopt;
  return checked_day(*year, static_cast<unsigned>(*month), static_cast<unsigned>(*day));
}

std::string iso(Day day) {
  const CivilDate date = civil(day);
  return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

std::string short_date(Day day, bool with_year) {
  static constexpr std::array<const char*, 12> names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const CivilDate date = civil(day);
  const std::string text = fmt::format("{} {}", names[date.month - 1], date.day);
  return with_year ? fmt::format("{}, {}", text, date.year) : text;
}

std::string weekday_name(Day day) {
  static constexpr std::array<const char*, 7> names{"Monday", "Tuesday",  "Wednesday", "Thursday",
                                                    "Friday", "Saturday", "Sunday"};
  return names[static_cast<std::size_t>((day - monday_of(day)).count())];
}

int day_of_year(Day day) {
  // Days and years counted from March 1 of the year 0 in eras of 400 years, as the date library does it; by
  // way of a whole date it would be a good part of the time of an answer.
  const int days = static_cast<int>(day.time_since_epoch().count()) + 719'468;
  const int era = (days >= 0 ? days : days - 146'096) / 146'097;
  const int of_era = days - era * 146'097;
  const int year = (of_era - of_era / 1'460 + of_era / 36'524 - of_era / 146'096) / 365;
  const int since_march = of_era - (365 * year + year / 4 - year / 100);
  constexpr int march_to_january = 306;
  if (since_march >= march_to_january) return since_march - march_to_january + 1;
  const bool leap = year % 4 == 0 && (year % 100 != 0 || year == 0);
  return since_march + (leap ? 61 : 60);
}

Day monday_of(Day day) {
  const date::weekday weekday{day};
  return day - (weekday - date::Monday);
}

}  // namespace soilclock
