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

/// Whether the parts of a stamp can be read in more than one order.
bool is_open(const RawStamp& stamp);

/// The order of the stamps whose parts can be read in more than one. With a year of four digits a field above
/// 12 decides, else the order in which the days run on without jumps, with a doubt. With one of two digits
/// the year may stand first, too, and only the steps of the days decide. Stamps that are
/// not open are passed over and may be left out. Errors: both orders proved (names both lines), nothing
/// decides (asks).
Result<DateOrder> settle_date_order(const std::vector<LinedStamp>& stamps, DateOrder wanted, int column,
                                    ReadingNotes& notes);

/// The day of a stamp under an order, also of a number of days or seconds; nothing when the day does not
/// exist.
std::optional<Day> stamped_day(const RawStamp& stamp, DateOrder order);

/// The day of a stamp of a calendar date under an order; nothing when the day does not exist.
std::optional<Day> day_of(const RawStamp& stamp, DateOrder order);

}  // namespace soilclock::weather
