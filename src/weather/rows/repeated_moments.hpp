// SPDX-License-Identifier: MIT
// Rows of one moment: the hour that comes twice at the end of summer time, harmless repeats, conflicts.
#pragma once

#include <optional>
#include <vector>

#include "core/problem.hpp"
#include "core/time_zone.hpp"
#include "weather/reading_notes.hpp"
#include "weather/rows/table_section.hpp"

namespace soilclock::weather {

/// Takes rows in order of time and drops equal repeats. Different values at one clock time both stay when
/// summer time may end there (by the zone when it is known, else up to two hours of one early morning of
/// March to May or September to November). Error otherwise, naming both lines.
Result<RowList> settle_repeats(const SectionData& data, RowList in_time_order, int step_minutes,
                               const std::optional<TimeZone>& zone, ReadingNotes& notes);

}  // namespace soilclock::weather
