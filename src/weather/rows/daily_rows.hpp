// SPDX-License-Identifier: MIT
// A table with one row a day to daily series.
#pragma once

#include "core/problem.hpp"
#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"
#include "weather/rows/table_section.hpp"

namespace soilclock::weather {

/// True when the rows are a day or more apart (or there is one row without a time of day).
bool is_daily(const TimedRows& rows);

/// Fills series, dates and step of the reading. Error: one day twice with different values.
Result<bool> read_daily_rows(const SectionData& data, const ReadingOptions& options, ParsedFile& reading,
                             ReadingNotes& notes);

}  // namespace soilclock::weather
