// SPDX-License-Identifier: MIT
// One table of a file after splitting: plan, moments and numbers as written.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "core/place.hpp"
#include "weather/columns/column_plan.hpp"
#include "weather/columns/table_layout.hpp"
#include "weather/rows/row_clock.hpp"
#include "weather/table/cell_values.hpp"

namespace soilclock::weather {

struct SectionData {
  const Table& table;
  const TableSection& section;
  ColumnPlan plan;
  TimedRows rows;
  std::map<std::size_t, ColumnValues> values;  ///< by column, for temperatures, rain, humidity, wind
  std::optional<Place> place;
  bool unit_guessed = false;  ///< of the temperatures, from their numbers
  bool unit_told = false;     ///< of the temperatures, by the user

  int line(std::size_t index) const { return table.line(rows.records[index]); }
  std::optional<int> heading_line() const {
    if (section.names.empty()) return std::nullopt;
    return table.line(section.heading_record);
  }
  /// The number of a row in the column of a quantity; not-a-number when there is no such column.
  double number(std::size_t index, std::optional<std::size_t> column) const;
};

}  // namespace soilclock::weather
