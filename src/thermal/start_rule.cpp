// SPDX-License-Identifier: MIT
#include "thermal/start_rule.hpp"

namespace soilclock::thermal {

namespace {

Day date_in_year(int year, unsigned month, unsigned day_of_month) {
  if (const auto day = checked_day(year, month, day_of_month)) return *day;
  // Only 29 February, or a day 31 that six months later falls into a month of 30: the day after the month's
  // last.
  return make_day(year, month + 1, 1);
}

Day date_in(const StartByDate& date, const Season& season) {
  const bool south = season.hemisphere == Hemisphere::south;
  const unsigned month = south ? (date.month + 5) % 12 + 1 : date.month;
  const int year = civil(season.first).year;
  const Day this_year = date_in_year(year, month, date.day_of_month);
  return this_year < season.first ? date_in_year(year + 1, month, date.day_of_month) : this_year;
}

/// Apart from its caller because g++ 12 falsely sees an uninitialized string when all of this is one
/// function.
Problem unknown_start(std::string_view text) {
  Problem problem{Family::request, "this start of a sum is not known", {}, {}, {}, {}};
  problem.found = text;
  problem.expected = "season, or month and day such as 02-15";
  return problem;
}

}  // namespace

Result<StartRule> parse_start(std::string_view text) {
  if (text == "season") return StartWithSeason{};
  // Any leap year will do to see whether the month has that day.
  const auto day = parse_iso_day("2000-" + std::string{text});
  if (!day) {
    return fail(unknown_start(text));
  }
  return StartByDate{civil(*day).month, civil(*day).day};
}

Day start_day(const StartRule& rule, const Season& season) {
  const auto* date = std::get_if<StartByDate>(&rule);
  return date ? date_in(*date, season) : season.first;
}

}  // namespace soilclock::thermal
