// SPDX-License-Identifier: MIT
#include "report/markup/escaping.hpp"

#include "core/text.hpp"

namespace soilclock::report {

std::string escaped(std::string_view text) {
  std::string result;
  for (const char c : printable(text, text.size())) {
    if (c == '&')
      result += "&amp;";
    else if (c == '<')
      result += "&lt;";
    else if (c == '>')
      result += "&gt;";
    else if (c == '"')
      result += "&quot;";
    else
      result += c;
  }
  return result;
}

}  // namespace soilclock::report
