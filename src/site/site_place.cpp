// SPDX-License-Identifier: MIT
#include "site/site_place.hpp"

#include <fmt/format.h>

#include <cmath>

namespace soilclock {

namespace {

/// Golf is played to 69.7 degrees north (Tromso), and nowhere near as far south. From memory; a bound of
/// sense, not of a model.
constexpr double farthest_from_equator = 70.0;

/// Clocks stray from the sun by at most 3 hours or so (western China keeps the time of 120 E at 74 E); a
/// forgotten sign is twice the longitude off. Judgment.
constexpr double widest_zone_degrees = 60.0;

/// Data kept in universal time, wherever the site lies. Lisbon and London have clocks of their own.
bool keeps_universal_time(const TimeZone& zone) {
  const std::string& name = zone.name();
  return name == "UTC" || name == "UTC+00:00" || name == "GMT" || name == "Zulu" || name == "Universal" ||
         name.starts_with("Etc/");
}

}  // namespace

std::optional<Problem> place_problem(const Place& place, const std::optional<TimeZone>& zone) {
  if (std::abs(place.latitude_deg) > farthest_from_equator) {
    return Problem{Family::request,
                   "no turf grows at this latitude",
                   {},
                   fmt::format("{}", place.latitude_deg),
                   fmt::format("-{0} to {0}", farthest_from_equator),
                   "are latitude and longitude exchanged?"};
  }
  if (!zone) return std::nullopt;
  // Which year is no matter: zones move by an hour or two, never by four.
  const auto offset = zone->standard_offset(Instant{make_day(2020, 1, 1)});
  const double meridian = static_cast<double>(offset.count()) / 3600.0 * 15.0;
  if (keeps_universal_time(*zone) || degrees_apart(place.longitude_deg, meridian) <= widest_zone_degrees)
    return std::nullopt;
  const bool sign = degrees_apart(-place.longitude_deg, meridian) <= widest_zone_degrees;
  return Problem{
      Family::request,
      "longitude and time zone do not go together",
      {},
      fmt::format("{} and {}", place.longitude_deg, zone->name()),
      fmt::format("a longitude near {}", meridian),
      sign ? fmt::format("west of Greenwich is negative: did you mean {}?", -place.longitude_deg) : ""};
}

}  // namespace soilclock
