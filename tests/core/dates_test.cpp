// SPDX-License-Identifier: MIT
#include "core/dates.hpp"

#include <catch2/catch.hpp>

#include "core/season.hpp"

using namespace soilclock;

namespace {

/// A second way to know the calendar: counting on day by day with the Gregorian leap rule.
struct CountedDate {
  int year = 1900;
  unsigned month = 1;
  unsigned day = 1;
  int day_of_year = 1;
  bool leap() const { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }
  unsigned days_of_month() const {
    if (month == 2) return leap() ? 29 : 28;
    return month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;
  }
  void step() {
    ++day_of_year;
    if (++day <= days_of_month()) return;
    day = 1;
    if (++month <= 12) return;
    month = 1;
    day_of_year = 1;
    ++year;
  }
};

}  // namespace

TEST_CASE("every day from 1900 to 2100 is counted, printed, read and cut into weeks without error") {
  CountedDate counted;
  int weekday = 0;  // 1 January 1900 was a Monday
  int wrong = 0;
  Day day = make_day(1900, 1, 1);
  for (; day < make_day(2101, 1, 1); day += Days{1}, counted.step(), weekday = (weekday + 1) % 7) {
    const CivilDate date = civil(day);
    const std::string text = iso(day);
    const bool right = date.year == counted.year && date.month == counted.month && date.day == counted.day &&
                       day_of_year(day) == counted.day_of_year && parse_iso_day(text) == day &&
                       checked_day(counted.year, counted.month, counted.day) == day &&
                       !checked_day(counted.year, counted.month, counted.days_of_month() + 1).has_value() &&
                       monday_of(day) == day - Days{weekday};
    wrong += right ? 0 : 1;
  }
  CHECK(wrong == 0);
  CHECK(counted.year == 2101);
  CHECK((day - make_day(1900, 1, 1)).count() == 73414);  // 201 years of 365 days and 49 leap days
}

TEST_CASE("only a whole ISO date of a day that exists is read") {
  CHECK(parse_iso_day("2024-02-29") == make_day(2024, 2, 29));
  for (const char* text :
       {"2023-02-29", "2024-2-29", "2024-02-29 ", "24-02-29", "2024/02/29", "2024-13-01", "2024-00-10",
        "2024-01-00", "", "2024-02-3x", "-024-02-03", "2024--2-03", "2024-+2-03"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_iso_day(text).has_value());
  }
}

TEST_CASE("short dates read as in a sentence") {
  CHECK(short_date(make_day(2026, 10, 20)) == "Oct 20");
  CHECK(short_date(make_day(2026, 1, 3), true) == "Jan 3, 2026");
  CHECK(weekday_name(make_day(2026, 10, 15)) == "Thursday");
  CHECK(weekday_name(make_day(2000, 1, 1)) == "Saturday");
  CHECK(weekday_name(make_day(1969, 7, 20)) == "Sunday");  // before the epoch
}

TEST_CASE("a range of days is half open and swapped ends make it empty") {
  const DayRange range{make_day(2024, 12, 30), make_day(2025, 1, 2)};
  CHECK(range.size() == 3);
  CHECK(range.contains(make_day(2025, 1, 1)));
  CHECK_FALSE(range.contains(make_day(2025, 1, 2)));
  CHECK(DayRange{make_day(2025, 1, 2), make_day(2024, 12, 30)}.empty());
}

TEST_CASE("every day of two centuries lies in exactly one season of each kind and hemisphere") {
  for (const SeasonKind kind : {SeasonKind::fall, SeasonKind::summer}) {
    for (const Hemisphere hemisphere : {Hemisphere::north, Hemisphere::south}) {
      int wrong = 0;
      Season current = season_of(make_day(1900, 1, 1), kind, hemisphere);
      for (Day day = make_day(1900, 1, 1); day < make_day(2101, 1, 1); day += Days{1}) {
        if (day == current.end()) current = current.next();
        const Season season = season_of(day, kind, hemisphere);
        const int length = season.length();
        const bool right =
            season.first == current.first && season.days().contains(day) &&
            season.day_of_season(day) == (day - current.first).count() && (length == 365 || length == 366) &&
            season.next().previous().first == season.first && season.previous().end() == season.first;
        wrong += right ? 0 : 1;
      }
      CHECK(wrong == 0);
    }
  }
}

TEST_CASE("seasons start at midsummer for fall species and at midwinter for summer annuals") {
  const auto first = [](Day day, SeasonKind kind, Hemisphere hemisphere) {
    return iso(season_of(day, kind, hemisphere).first);
  };
  CHECK(first(make_day(2024, 6, 20), SeasonKind::fall, Hemisphere::north) == "2023-06-21");
  CHECK(first(make_day(2024, 6, 21), SeasonKind::fall, Hemisphere::north) == "2024-06-21");
  CHECK(first(make_day(2024, 1, 1), SeasonKind::fall, Hemisphere::south) == "2023-12-21");
  CHECK(first(make_day(2024, 12, 31), SeasonKind::summer, Hemisphere::north) == "2024-01-01");
  CHECK(first(make_day(2024, 6, 30), SeasonKind::summer, Hemisphere::south) == "2023-07-01");
  CHECK(season_of(make_day(2024, 1, 15), SeasonKind::fall, Hemisphere::north).length() == 366);
  CHECK(season_of(make_day(2024, 7, 15), SeasonKind::fall, Hemisphere::north).length() == 365);
}

TEST_CASE("the northern day of the year is half a year away in the south") {
  CHECK(northern_day_of_year(make_day(2023, 1, 1), Hemisphere::north) == 1);
  CHECK(northern_day_of_year(make_day(2023, 7, 1), Hemisphere::south) == Approx(1).margin(1));
  for (Day day = make_day(2023, 1, 1); day < make_day(2025, 1, 1); day += Days{1}) {
    const int there = northern_day_of_year(day, Hemisphere::south);
    const int apart = (there - day_of_year(day) + 365) % 365;
    CHECK(there >= 1);
    CHECK(there <= 366);
    CHECK(apart >= 182);
    CHECK(apart <= 184);
  }
}
