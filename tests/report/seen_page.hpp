// SPDX-License-Identifier: MIT
// A page as a reader sees it, and whether its markup holds together.
#pragma once

#include <regex>
#include <string>
#include <vector>

namespace soilclock::tests {

inline std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

/// What a reader sees: no style, no tags.
inline std::string seen(const std::string& page) {
  std::string text = page.substr(page.find("<body"));
  return std::regex_replace(text, std::regex{"<[^>]*>"}, " ");
}

/// Every element that is opened is closed in order; pages are written so that XML rules hold but for the
/// doctype and its two void elements of the head.
inline bool well_formed(const std::string& page) {
  std::vector<std::string> open;
  static const std::regex tag{"<(/?)([a-z0-9]+)((?:\"[^\"]*\"|[^\">])*?)(/?)>"};
  const std::string body = page.substr(page.find("<body"));
  for (auto it = std::sregex_iterator{body.begin(), body.end(), tag}; it != std::sregex_iterator{}; ++it) {
    const std::string name = (*it)[2];
    if ((*it)[4].length() > 0) continue;
    if ((*it)[1].length() == 0) {
      open.push_back(name);
    } else if (open.empty() || open.back() != name) {
      if (name != "html" || !open.empty()) return false;
    } else {
      open.pop_back();
    }
  }
  return open.empty();
}

}  // namespace soilclock::tests
