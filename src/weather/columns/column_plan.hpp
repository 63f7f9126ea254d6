// SPDX-License-Identifier: MIT
// Which column of a table is which quantity: from the headings, from the user, or for the date from the
// content.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/problem.hpp"
#include "weather/columns/heading_meaning.hpp"
#include "weather/columns/table_layout.hpp"
#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"

namespace soilclock::weather {

struct PlannedColumn {
  std::string heading;
  HeadingMeaning meaning;
  bool named = false;  ///< the user said what it is
};

/// One entry per column of the table.
struct ColumnPlan {
  std::vector<PlannedColumn> columns;
  std::string day_definition;  ///< where the set of headings is that of a known format; else empty

  std::optional<std::size_t> find(Quantity quantity) const;
  std::vector<std::size_t> all(Quantity quantity) const;
  Quantity quantity(std::size_t column) const { return columns[column].meaning.quantity; }
  /// Any usable air or soil temperature.
  bool any_temperature() const;
};

/// What `ReadingOptions::columns` says by position, without heading; nothing when it is empty or by heading.
bool columns_by_position(const ReadingOptions& options);

/// Decides the use of every column once: of several for one quantity the plainest heading wins, and a word
/// that is not known in the only one is doubted. Errors: no date, two dates that differ, no usable
/// temperature, a minimum or maximum only under a heading that says it is of something else ("forecast"), a
/// unit that is not known here, a soil column without a depth where it is the only value, an option that
/// names an unknown quantity or heading.
Result<ColumnPlan> plan_columns(const Table& table, const TableSection& section,
                                const ReadingOptions& options, ReadingNotes& notes);

}  // namespace soilclock::weather
