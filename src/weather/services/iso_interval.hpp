// SPDX-License-Identifier: MIT
// Intervals of ISO 8601, as grids of forecasts write them.
#pragma once

#include <optional>
#include <string_view>

#include "core/time_zone.hpp"

namespace soilclock::weather {

/// [start, start + length).
struct TimeSpan {
  Instant start{};
  std::chrono::seconds length{0};
  Instant end() const { return start + length; }
};

/// "2022-02-03T21:00:00+00:00/PT4H", also "P1DT6H", "P2D", "PT30M"; nothing for any other form, for months
/// and years (they have no fixed length) and for lengths of nothing or more than 60 days.
std::optional<TimeSpan> parse_time_span(std::string_view text);

}  // namespace soilclock::weather
