// SPDX-License-Identifier: MIT
// Columns whose values are of another length of time than the rows are apart: "rain 24 h" in an hourly table.
#pragma once

#include "core/problem.hpp"
#include "weather/columns/column_plan.hpp"
#include "weather/reading_notes.hpp"
#include "weather/rows/row_clock.hpp"

namespace soilclock::weather {

/// Leaves such columns unused, with a doubt; the rain of the day in a table of hours becomes a running total
/// of the day. Error: nothing with the extremes of a day is left.
Checked set_windows_aside(ColumnPlan& plan, const TimedRows& rows, std::optional<int> line,
                          ReadingNotes& notes);

}  // namespace soilclock::weather
