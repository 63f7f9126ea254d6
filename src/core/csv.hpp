// SPDX-License-Identifier: MIT
// Comma-separated text as RFC 4180 has it: how every table of the program is written.
#pragma once

#include <string>
#include <vector>

namespace soilclock {

/// One row with its line end (a bare line feed). A cell with a comma, a quote, a line end or blanks at its
/// ends stands in quotes, a quote within it is doubled.
std::string csv_row(const std::vector<std::string>& cells);

}  // namespace soilclock
