// SPDX-License-Identifier: MIT
// Reads comma-separated text by RFC 4180.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "core/problem.hpp"

namespace soilclock::records {

struct CsvCell {
  std::string text;
  int line = 1;  ///< where the cell begins, from 1; differs within a row when a cell holds line ends
};

using CsvRow = std::vector<CsvCell>;

/// The rows of a text; a byte order mark and empty lines are passed over; lines may end in LF, CRLF or CR.
/// Problem (data, with line and column; a column is the number of the cell): a quote that is not closed, text
/// after a closing quote, a quote within a bare cell.
Result<std::vector<CsvRow>> parse_csv(std::string_view text, const std::string& file);

/// Whether one of the words of the first line that is not empty, cut at commas, semicolons and tabs, is
/// known. A refusal of a table without any known heading shows nothing of it: it may be a private
/// file named by mistake.
bool has_heading(std::string_view text, const std::function<bool(std::string_view word)>& known);

}  // namespace soilclock::records
