// SPDX-License-Identifier: MIT
// Looks at a text: its lines, and whether it holds a part.
#pragma once

#include <sstream>
#include <string>
#include <vector>

namespace soilclock::tests {

/// The lines of a text, without their ends.
inline std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// Whether a text holds a part.
inline bool mentions(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace soilclock::tests
