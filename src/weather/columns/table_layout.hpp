// SPDX-License-Identifier: MIT
// Finds the tables of a text: heading lines, units lines, rows; what stands ahead of them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/problem.hpp"
#include "weather/columns/preamble.hpp"
#include "weather/reading_notes.hpp"
#include "weather/table/table_splitting.hpp"

namespace soilclock::weather {

/// One table of a file: its headings and its rows.
struct TableSection {
  std::size_t heading_record = 0;
  std::vector<std::string> names;  ///< as they stand in the heading line; empty for a table without heading
  std::vector<std::string> meanings;  ///< names with the units line in brackets, for recognition
  std::vector<std::string> legends;   ///< what the lines ahead say about each name
  RowList rows;  ///< records that may hold data: no blank, comment, heading or units line

  void add_row(std::size_t record) { rows.push_back(static_cast<std::uint32_t>(record)); }
};

struct Layout {
  Preamble preamble;
  std::vector<TableSection> sections;  ///< weather tables, at least one
  std::optional<TableSection> places;  ///< a table of places ahead of them
};

/// Finds the tables. `no_heading` says that the user named the columns by position: rows start at the first
/// row with a number. Errors: no heading, heading only, no table at all.
Result<Layout> find_layout(const Table& table, bool no_heading, ReadingNotes& notes);

/// What is said of a text without a table; `found` is what it holds instead, empty where that is not to be
/// shown.
Problem no_weather_table(std::string found, const ReadingNotes& notes);

/// Whether any of the first ten thousand lines looks like weather data: a heading with a moment and a value,
/// a row of a date and numbers (below a heading that names a moment or a value it may hold more words), or
/// numbers with few words among them. A refusal shows nothing of any other text: it may be a private
/// file named by mistake.
bool has_weather_lines(const Table& table);

/// Starts with a digit or a sign and a digit: a number, a date or a time.
bool starts_like_a_number(std::string_view field);

}  // namespace soilclock::weather
