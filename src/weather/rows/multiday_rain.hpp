// SPDX-License-Identifier: MIT
// Rain measured once for several days: never all on one day, never dry days.
#pragma once

#include <vector>

#include "weather/reading_notes.hpp"
#include "weather/rows/table_section.hpp"

namespace soilclock::weather {

/// Ranges of days whose rain is known only as a total: a flag such as "A3" closes the days it covers, or a
/// column of several days' rain holds the amount. Their single amounts are unknown; a doubt says the total.
std::vector<DayRange> multiday_totals(const SectionData& data, const RowList& rows, std::size_t rain_column,
                                      ReadingNotes& notes);

}  // namespace soilclock::weather
