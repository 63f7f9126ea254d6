// SPDX-License-Identifier: MIT
// Tables with one value a row: a date, the name of an element, its value.
#pragma once

#include <memory>
#include <string>

#include "weather/columns/table_layout.hpp"

namespace soilclock::weather {

/// A table made from another one; the table views the text.
struct WideTable {
  WideTable(std::string made, char delimiter) : text{std::move(made)}, table{text, delimiter} {}
  WideTable(const WideTable&) = delete;
  WideTable& operator=(const WideTable&) = delete;
  std::string text;
  Table table;
  TableSection section;
};

/// One row for each moment and station and one column for each element, with a doubt; a value that stands
/// twice for one moment makes a second row. Records keep the line of their first value. Nothing for a table
/// that is not of this kind.
std::unique_ptr<WideTable> widened(const Table& table, const TableSection& section, ReadingNotes& notes);

}  // namespace soilclock::weather
