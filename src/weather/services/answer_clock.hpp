// SPDX-License-Identifier: MIT
// One offset for a whole answer: what it says about the days, and whether it agrees with the zone named.
#pragma once

#include <optional>
#include <string>

#include "core/dates.hpp"
#include "core/time_zone.hpp"

namespace soilclock::weather {

/// "UTC" or "fixed offset UTC-05:00": how days cut by one offset are called.
std::string fixed_day_definition(std::chrono::seconds offset);

/// False when the zone never keeps this offset between the first day and the end of 2037 (an answer may be
/// asked for long after its days): stamps and zone of the answer contradict each other.
bool zone_keeps_offset(const TimeZone& zone, std::chrono::seconds offset, Day first);

/// What to say about daily values cut by one offset, empty when they are days of local standard time and the
/// clock does not change in the range.
std::string doubt_about_days(const std::optional<TimeZone>& zone, std::chrono::seconds offset, DayRange days);

}  // namespace soilclock::weather
