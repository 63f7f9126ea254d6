// SPDX-License-Identifier: MIT
#include "weather/services/answer_clock.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soilclock::weather {

namespace {

/// Noon of a day, away from the hours clocks change in.
Instant noon(Day day) { return Instant{day} + std::chrono::hours{12}; }

/// The first day of the range on which the wall clock differs from the first day's.
std::optional<Day> clock_change(const TimeZone& zone, DayRange days) {
  const auto at_first = zone.wall_offset(noon(days.begin()));
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    if (zone.wall_offset(noon(day)) != at_first) return day;
  }
  return std::nullopt;
}

}  // namespace

std::string fixed_day_definition(std::chrono::seconds offset) {
  return offset == std::chrono::seconds{0} ? "UTC" : "fixed offset " + TimeZone::fixed(offset).name();
}

bool zone_keeps_offset(const TimeZone& zone, std::chrono::seconds offset, Day first) {
  // Half a month is shorter than any summer time, also where it pauses for a month of fasting.
  const Day last = std::max(make_day(2038, 1, 1), first + Days{366});
  for (Day day = first - Days{31}; day < last; day += Days{15}) {
    if (zone.wall_offset(noon(day)) == offset) return true;
  }
  return false;
}

std::string doubt_about_days(const std::optional<TimeZone>& zone, std::chrono::seconds offset,
                             DayRange days) {
  if (days.empty()) return {};
  if (!zone) {
    return offset == std::chrono::seconds{0}
               ? "the days are UTC days, not days of the place"
               : fmt::format("all days are cut by the one offset {} of the moment of the request",
                             TimeZone::fixed(offset).name());
  }
  const bool standard = zone->standard_offset(noon(days.begin())) == offset &&
                        zone->standard_offset(noon(days.end() - Days{1})) == offset;
  const auto change = clock_change(*zone, days);
  if (standard && !change) return {};
  if (standard) {
    return fmt::format(
        "the clock of {} changes within the answer (first on {}), but all days are cut by {}, its standard "
        "time: standard-time days",
        zone->name(), iso(*change), TimeZone::fixed(offset).name());
  }
  if (offset == std::chrono::seconds{0}) {
    return fmt::format("the days are UTC days, not days of {}; ask for hours to cut them there",
                       zone->name());
  }
  return fmt::format(
      "all days are cut by the one offset {} of the moment of the request, which is not the standard time of "
      "{}{}",
      TimeZone::fixed(offset).name(), zone->name(),
      change ? fmt::format("; the clock changes within the answer (first on {})", iso(*change)) : "");
}

}  // namespace soilclock::weather
