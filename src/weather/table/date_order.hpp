// SPDX-License-Identifier: MIT
// Day first or month first: settled once for a whole column, by evidence, never value by value.
#pragma once

#include <vector>

#include "core/problem.hpp"
#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"
#include "weather/table/stamp_parsing.hpp"

namespace soilclock::weather {

/// A stamp and the line it stands on.
struct LinedStamp {
  RawStamp stamp;
  int line;
};

/// The order of the stamps of form year_last. A field above 12 decides; else the order in which the days run
/// on without jumps, with a doubt. Errors: both orders proved (names both lines), nothing decides (asks).
Result<DateOrder> settle_date_order(const std::vector<LinedStamp>& stamps, DateOrder wanted, int column,
                                    ReadingNotes& notes);

/// The day of a stamp under an order; nothing when the day does not exist.
std::optional<Day> day_of(const RawStamp& stamp, DateOrder order);

}  // namespace soilclock::weather
