// SPDX-License-Identifier: MIT
// Several stations in one file: each day stands once for each of them, and only one station is read.
#pragma once

#include "core/problem.hpp"
#include "weather/columns/column_plan.hpp"
#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"
#include "weather/rows/row_clock.hpp"

namespace soilclock::weather {

/// Keeps the rows of one station: the wanted one, else the first with a doubt that lists the others. Rows
/// stay as they are when no column holds stations. Error: the station asked for is not in the file.
/// Returns the station's text, empty when there is only one.
Result<std::string> choose_station(const Table& table, const ColumnPlan& plan, const std::string& wanted,
                                   TimedRows& rows, ReadingNotes& notes);

}  // namespace soilclock::weather
