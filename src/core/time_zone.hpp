// SPDX-License-Identifier: MIT
// The one door to time-zone rules. Days are cut by the site's standard time unless a source says otherwise.
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "core/dates.hpp"
#include "core/problem.hpp"

namespace soilclock {

/// An instant in UTC, to the second.
using Instant = date::sys_seconds;

/// "YYYY-MM-DDTHH:MM:SSZ".
std::string iso(Instant at);
/// "2022-02-04T03:15:41Z", also with an offset ("+05:30") in place of the Z and with a fraction of the
/// second, which is left out; nothing for any other form.
std::optional<Instant> parse_iso_instant(std::string_view text);
/// "Z", "+05:30", "-0500", "-5" in seconds east of UTC; nothing for any other form and beyond 14:59 hours.
std::optional<std::chrono::seconds> parse_utc_offset(std::string_view text);

class ZoneRules;

/// A named time zone of the tz database ("America/New_York") or a fixed offset ("UTC-05:00").
class TimeZone {
 public:
  /// The zone of that name; a request problem with the nearest known name otherwise.
  static Result<TimeZone> named(std::string_view name);
  /// A zone that never changes, east of UTC positive.
  static TimeZone fixed(std::chrono::seconds offset_from_utc);
  /// The whole-hour offset that belongs to a longitude (15 degrees an hour), for a place whose zone nobody
  /// says.
  static TimeZone of_longitude(double longitude_deg);

  /// What is added to UTC to get the wall clock at an instant.
  std::chrono::seconds wall_offset(Instant at) const;
  /// What is added to UTC to get standard time at an instant (summer time taken out).
  std::chrono::seconds standard_offset(Instant at) const;
  /// The standard-time civil day an instant lies in.
  Day standard_day(Instant at) const;
  /// The wall-clock civil day an instant lies in.
  Day wall_day(Instant at) const;
  const std::string& name() const { return name_; }

 private:
  std::string name_;
  std::shared_ptr<const ZoneRules> rules_;  // null for a fixed offset
  std::chrono::seconds fixed_offset_{0};
};

}  // namespace soilclock
