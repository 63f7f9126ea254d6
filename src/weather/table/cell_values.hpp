// SPDX-License-Identifier: MIT
// One column of cells to numbers: decimal mark, minus signs, words and codes for missing values, traces of
// rain.
#pragma once

#include <optional>
#include <vector>

#include "core/problem.hpp"
#include "weather/reading_notes.hpp"
#include "weather/table/table_splitting.hpp"

namespace soilclock::weather {

/// Numbers as written, before any conversion; not-a-number where a value is missing.
struct ColumnValues {
  std::vector<double> values;  ///< one per row asked for
  int marked_missing = 0;      ///< cells with a missing word or code, blanks not counted
  int blank = 0;
  int traces = 0;
  std::vector<std::string> markers;  ///< the different words and codes met
  std::string unit;  ///< what follows the numbers in their cells ("mm"), empty when nothing does
};

/// Reads the cells of a column. A missing code is compared as a number before units are converted; a trace of
/// rain counts 0 where traces are allowed. A cell that is neither number nor marker is missing, with a doubt.
/// Errors: decimal points and decimal commas, or two units behind the numbers, mixed in one column.
Result<ColumnValues> read_column(const Table& table, const RowList& rows, std::size_t column,
                                 bool traces_allowed, std::optional<double> missing_code,
                                 ReadingNotes& notes);

}  // namespace soilclock::weather
