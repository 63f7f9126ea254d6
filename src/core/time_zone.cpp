// SPDX-License-Identifier: MIT
#include "core/time_zone.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <vector>

#include "core/text.hpp"
#include "core/zone_rules.hpp"

namespace soilclock {

namespace {

/// The number that all of the text is, in one or two digits.
std::optional<int> short_number(std::string_view text) {
  int value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return text.empty() || text.size() > 2 ? std::nullopt : std::optional{value};
}

/// The number in two digits at a place of a text that reaches that far, if it is below a limit.
std::optional<int> two_digits(std::string_view text, std::size_t at, int below) {
  const auto value = short_number(text.substr(at, 2));
  return value && *value < below ? value : std::nullopt;
}

/// "UTC-05:00", "GMT+9:30", "UTC" -> seconds east of UTC.
std::optional<std::chrono::seconds> fixed_offset(std::string_view name) {
  if (!name.starts_with("UTC") && !name.starts_with("GMT")) return std::nullopt;
  name.remove_prefix(3);
  return name.empty() ? std::chrono::seconds{0} : parse_utc_offset(name);
}

}  // namespace

std::string iso(Instant at) {
  const Day day = date::floor<Days>(at);
  const auto seconds = (at - day).count();
  return fmt::format("{}T{:02}:{:02}:{:02}Z", iso(day), seconds / 3600, seconds / 60 % 60, seconds % 60);
}

std::optional<std::chrono::seconds> parse_utc_offset(std::string_view text) {
  if (text == "Z") return std::chrono::seconds{0};
  if (text.empty() || (text.front() != '+' && text.front() != '-')) return std::nullopt;
  const int sign = text.front() == '-' ? -1 : 1;
  text.remove_prefix(1);
  const auto colon = text.find(':');
  const bool in_four = colon == std::string_view::npos && text.size() == 4;
  const auto hours = short_number(in_four ? text.substr(0, 2) : text.substr(0, colon));
  std::optional<int> minutes{0};
  if (in_four || colon != std::string_view::npos) {
    text.remove_prefix(in_four ? 2 : colon + 1);
    minutes = text.size() == 2 ? short_number(text) : std::nullopt;
  }
  if (!hours || !minutes || *hours > 14 || *minutes > 59) return std::nullopt;
  return sign * (std::chrono::hours{*hours} + std::chrono::minutes{*minutes});
}

std::optional<Instant> parse_iso_instant(std::string_view text) {
  if (text.size() < 20 || text[10] != 'T' || text[13] != ':' || text[16] != ':') return std::nullopt;
  const auto day = parse_iso_day(text.substr(0, 10));
  const auto hour = two_digits(text, 11, 24);
  const auto minute = two_digits(text, 14, 60);
  const auto second = two_digits(text, 17, 60);
  std::size_t end = 19;
  if (text[end] == '.') end = std::min(text.find_first_not_of("0123456789", end + 1), text.size());
  const auto offset = parse_utc_offset(text.substr(end));
  if (!day || !hour || !minute || !second || !offset) return std::nullopt;
  return Instant{*day} + std::chrono::hours{*hour} + std::chrono::minutes{*minute} +
         std::chrono::seconds{*second} - *offset;
}

Result<TimeZone> TimeZone::named(std::string_view name) {
  if (const auto offset = fixed_offset(name)) {
    TimeZone result = fixed(*offset);
    result.name_ = std::string{name};
    return result;
  }
  TimeZone result;
  result.rules_ = ZoneRules::named(name);
  result.name_ = std::string{name};
  if (result.rules_) return result;
  const auto near = nearest(name, time_zone_names());
  return fail({Family::request,
               "this time zone is not known",
               {},
               std::string{name},
               "a name such as America/New_York, or a fixed offset such as UTC-05:00",
               near ? "did you mean '" + *near + "'?" : ""});
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
  return rules_ ? rules_->period_at(at).offset : fixed_offset_;
}

std::chrono::seconds TimeZone::standard_offset(Instant at) const {
  if (!rules_) return fixed_offset_;
  const ZoneRules::Period now = rules_->period_at(at);
  // The table only flags summer time and does not say by how much, so the smaller offset of this and the
  // neighboring period is standard time. Ireland flags its winter instead; for this program its winter is
  // standard.
  std::chrono::seconds standard = now.offset;
  const auto consider = [&](Instant neighbor_at) {
    const ZoneRules::Period neighbor = rules_->period_at(neighbor_at);
    const ZoneRules::Period& flagged = now.summer ? now : neighbor;
    const bool seasonal = flagged.end - flagged.begin < date::years{1};
    if (neighbor.summer != now.summer && seasonal) standard = std::min(standard, neighbor.offset);
  };
  consider(now.begin - std::chrono::seconds{1});
  consider(now.end);
  return standard;
}

Day TimeZone::standard_day(Instant at) const { return date::floor<Days>(at + standard_offset(at)); }

Day TimeZone::wall_day(Instant at) const { return date::floor<Days>(at + wall_offset(at)); }

}  // namespace soilclock
