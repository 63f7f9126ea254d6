// SPDX-License-Identifier: MIT
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {
constexpr std::size_t line_width = 100;
}

std::string wrapped(std::string_view text, std::size_t indent) {
  std::string result;
  std::string line(indent, ' ');
  bool line_empty = true;
  while (!text.empty()) {
    const auto end = text.find(' ');
    const std::string_view word = text.substr(0, end);
    if (!line_empty && line.size() + 1 + word.size() > line_width) {
      result += line + "\n";
      line.assign(indent + 2, ' ');
      line_empty = true;
    }
    if (!line_empty) line += ' ';
    line += word;
    line_empty = false;
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  return result + line + "\n";
}

}  // namespace soilclock::report
