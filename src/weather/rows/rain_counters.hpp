// SPDX-License-Identifier: MIT
// Running totals of rain (of the day, the season, since installation) to amounts.
#pragma once

#include <optional>
#include <vector>

#include "core/rain.hpp"
#include "core/series.hpp"
#include "weather/reading_notes.hpp"
#include "weather/rows/table_section.hpp"

namespace soilclock::weather {

/// True when the numbers of a rain column, in the order given, behave like a running total: they stay on the
/// value reached instead of falling back to zero. Basis: invented thresholds, checked against measured
/// records.
bool counts_up(const SectionData& data, const RowList& rows, std::size_t column);

/// Daily amounts from a running total with one reading a day. A reading at the start of the day gives the
/// amount of the day before the next reading, others that of their own day. After a reset the amount is
/// unknown.
void rain_from_daily_counter(const SectionData& data, const RowList& rows, std::size_t column,
                             DailySeries<Rain>& rain, ReadingNotes& notes);

/// Rain in millimeters of each row's interval, in time order: amounts as printed, or differences of a running
/// total (of the day: it starts anew each day; else: it runs on, and a fall is a reset). Nothing when there
/// is no rain column.
std::optional<std::vector<double>> rain_amounts(const SectionData& data, const RowList& rows,
                                                ReadingNotes& notes);

}  // namespace soilclock::weather
