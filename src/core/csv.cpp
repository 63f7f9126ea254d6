// SPDX-License-Identifier: MIT
#include "core/csv.hpp"

#include <string_view>

#include "core/text.hpp"

namespace soilclock {

namespace {

bool needs_quotes(std::string_view text) {
  return text.find_first_of(",\"\r\n") != std::string_view::npos || trimmed(text).size() != text.size();
}

}  // namespace

std::string csv_row(const std::vector<std::string>& cells) {
  std::string row;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) row += ',';
    if (!needs_quotes(cells[i])) {
      row += cells[i];
      continue;
    }
    row += '"';
    for (const char c : cells[i]) {
      if (c == '"') row += '"';
      row += c;
    }
    row += '"';
  }
  // A row of one empty cell would read as an empty line.
  if (cells.size() == 1 && cells[0].empty()) row += "\"\"";
  return row + "\n";
}

}  // namespace soilclock
