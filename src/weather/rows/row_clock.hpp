// SPDX-License-Identifier: MIT
// The moment of every row: date columns, time columns, epochs, offsets, hour-ending clocks, reset clocks.
#pragma once

#include <string>
#include <vector>

#include "core/problem.hpp"
#include "weather/columns/column_plan.hpp"
#include "weather/reading_notes.hpp"

namespace soilclock::weather {

/// The moment of a row on the clock of its file.
struct Moment {
  Day day{};
  int minute = 0;         ///< 0 to 1440; 1440 closes the day
  long long instant = 0;  ///< minutes, equal only for rows of the same moment
};

struct TimedRows {
  RowList records;              ///< records of the table, in file order
  std::vector<Moment> moments;  ///< one per record
  bool has_time = false;
  bool unique_instants =
      false;          ///< stamps say their offset from UTC: equal clock times can be different moments
  std::string clock;  ///< "UTC", "wall clock"; empty when the stamps do not say
};

/// Reads the moment of all rows; rows that are not data (totals, notes, a reset clock) are left out with
/// doubts. Errors: a date that does not exist, an order that is not clear, a column without dates.
Result<TimedRows> read_moments(const Table& table, const TableSection& section, const ColumnPlan& plan,
                               const ReadingOptions& options, ReadingNotes& notes);

}  // namespace soilclock::weather
