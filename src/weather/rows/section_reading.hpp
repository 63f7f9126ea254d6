// SPDX-License-Identifier: MIT
// One table of a text to a reading: plan, moments, station, numbers, units, days.
#pragma once

#include "core/problem.hpp"
#include "weather/columns/table_layout.hpp"
#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"

namespace soilclock::weather {

/// Reads one table. Doubts go to the notes, everything else into the result.
Result<ParsedFile> read_block(const Table& table, const Layout& layout, const TableSection& section,
                              const ReadingOptions& options, ReadingNotes& notes);

}  // namespace soilclock::weather
