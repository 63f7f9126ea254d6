// SPDX-License-Identifier: MIT
// Reads comma-separated text by RFC 4180.
#pragma once

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

}  // namespace soilclock::records
