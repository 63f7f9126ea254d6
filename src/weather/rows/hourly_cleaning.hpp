// SPDX-License-Identifier: MIT
// Readings within a day that are no weather: impossible values, spikes, outages written as zeros, stuck
// sensors.
#pragma once

#include <vector>

#include "weather/reading_notes.hpp"
#include "weather/rows/table_section.hpp"

namespace soilclock::weather {

/// One temperature column in Celsius, in the order of `rows`, not-a-number where the reading cannot be used.
/// Limits -60 to 60 C; a spike differs from both neighbors (within 3 hours) by more than 20 C; zeros of an
/// outage come with 0 % humidity or in a run of three or more after a jump of 10 C; equal readings for 12
/// hours are only flagged. Basis: common practice of quality control, widened so that measured records pass.
std::vector<double> clean_temperatures(const SectionData& data, const RowList& rows, std::size_t column,
                                       ReadingNotes& notes);

}  // namespace soilclock::weather
