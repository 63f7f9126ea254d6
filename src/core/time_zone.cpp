// SPDX-License-Identifier: MIT
#include "core/time_zone.hpp"

#include <date/tz.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <stdexcept>
#include <vector>

#include "core/text.hpp"

namespace soilclock {

namespace {

const date::time_zone& zone(const void* rules) { return *static_cast<const date::time_zone*>(rules); }

/// "UTC-05:00", "GMT+9:30", "UTC" -> seconds east of UTC.
std::optional<std::chrono::seconds> fixed_offset(std::string_view name) {
  if (!name.starts_with("UTC") && !name.starts_with("GMT")) return std::nullopt;
  name.remove_prefix(3);
  if (name.empty()) return std::chrono::seconds{0};
  if (name.front() != '+' && name.front() != '-') return std::nullopt;
  const int sign = name.front() == '-' ? -1 : 1;
  name.remove_prefix(1);
  const auto colon = name.find(':');
  const auto hours = parse_number(name.substr(0, colon));
  const auto minutes =
      colon == std::string_view::npos ? std::optional{0.0} : parse_number(name.substr(colon + 1));
  if (!hours || !minutes || *hours < 0 || *hours > 14 || *minutes < 0 || *minutes > 59) return std::nullopt;
  return std::chrono::seconds{sign * static_cast<int>(*hours * 3600 + *minutes * 60)};
}

}  // namespace

std::string iso(Instant at) {
  const Day day = date::floor<Days>(at);
  const auto seconds = (at - day).count();
  return fmt::format("{}T{:02}:{:02}:{:02}Z", iso(day), seconds / 3600, seconds / 60 % 60, seconds % 60);
}

std::optional<Instant> parse_iso_instant(std::string_view text) {
  if (text.size() != 20 || text[10] != 'T' || text[13] != ':' || text[16] != ':' || text[19] != 'Z')
    return std::nullopt;
  const auto day = parse_iso_day(text.substr(0, 10));
  const auto part = [&](std::size_t at, int below) -> std::optional<int> {
    const char tens = text[at];
    const char ones = text[at + 1];
    if (tens < '0' || tens > '9' || ones < '0' || ones > '9') return std::nullopt;
    const int value = (tens - '0') * 10 + (ones - '0');
    return value < below ? std::optional{value} : std::nullopt;
  };
  const auto hour = part(11, 24);
  const auto minute = part(14, 60);
  const auto second = part(17, 60);
  if (!day || !hour || !minute || !second) return std::nullopt;
  return Instant{*day} + std::chrono::seconds{*hour * 3600 + *minute * 60 + *second};
}

Result<TimeZone> TimeZone::named(std::string_view name) {
  if (const auto offset = fixed_offset(name)) {
    TimeZone result = fixed(*offset);
    result.name_ = std::string{name};
    return result;
  }
  try {
    TimeZone result;
    result.rules_ = date::locate_zone(std::string{name});
    result.name_ = std::string{name};
    return result;
  } catch (const std::runtime_error&) {
    std::vector<std::string> known;
    try {
      for (const auto& z : date::get_tzdb().zones) known.push_back(z.name());
    } catch (const std::runtime_error&) {
      return fail({Family::environment,
                   "the system's time-zone data cannot be read",
                   {},
                   {},
                   {},
                   "install the package tzdata, or give a fixed offset such as UTC-05:00"});
    }
    const auto near = nearest(name, known);
    return fail({Family::request,
                 "this time zone is not known",
                 {},
                 std::string{name},
                 "a name such as America/New_York, or a fixed offset such as UTC-05:00",
                 near ? "did you mean '" + *near + "'?" : ""});
  }
}

TimeZone TimeZone::fixed(std::chrono::seconds offset_from_utc) {
  TimeZone result;
  result.fixed_offset_ = offset_from_utc;
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(offset_from_utc).count();
  result.name_ = fmt::format("UTC{}{:02}:{:02}", minutes < 0 ? '-' : '+', std::abs(minutes) / 60,
                             std::abs(minutes) % 60);
  return result;
}

TimeZone TimeZone::of_longitude(double longitude_deg) {
  return fixed(std::chrono::hours{std::lround(longitude_deg / 15.0)});
}

std::chrono::seconds TimeZone::wall_offset(Instant at) const {
  return rules_ == nullptr ? fixed_offset_ : zone(rules_).get_info(at).offset;
}

std::chrono::seconds TimeZone::standard_offset(Instant at) const {
  if (rules_ == nullptr) return fixed_offset_;
  const date::time_zone& rules = zone(rules_);
  const date::sys_info info = rules.get_info(at);
  // The system's binary rules only flag summer time and do not say by how much, so the smaller offset of this
  // and the neighboring period is standard time. Ireland flags its winter instead; for this program its
  // winter is standard.
  const bool flagged = info.save != std::chrono::minutes{0};
  std::chrono::seconds standard = info.offset;
  // The first and the last period of a zone have no neighbor; their ends lie far outside any year asked for.
  const Instant earliest{make_day(1800, 1, 1)};
  const Instant latest{make_day(3000, 1, 1)};
  const Instant just_before = std::max(info.begin, earliest) - std::chrono::seconds{1};
  for (const Instant neighbor_at : {just_before, info.end}) {
    if (neighbor_at < earliest || neighbor_at > latest) continue;
    const date::sys_info neighbor = rules.get_info(neighbor_at);
    const bool other_kind = (neighbor.save != std::chrono::minutes{0}) != flagged;
    const date::sys_info& summer_or_winter = flagged ? info : neighbor;
    const bool seasonal = summer_or_winter.end - summer_or_winter.begin < date::years{1};
    if (other_kind && seasonal) standard = std::min(standard, neighbor.offset);
  }
  return standard;
}

Day TimeZone::standard_day(Instant at) const { return date::floor<Days>(at + standard_offset(at)); }

Day TimeZone::wall_day(Instant at) const { return date::floor<Days>(at + wall_offset(at)); }

}  // namespace soilclock
