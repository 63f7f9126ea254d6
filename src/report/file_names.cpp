// SPDX-License-Identifier: MIT
#include "report/file_names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>

namespace soilclock::report {

namespace {

constexpr std::size_t longest_kept = 48;
constexpr std::size_t longest_beginning = 39;  // a dash and eight digits follow

/// FNV-1a, 32 bits: the same on every machine.
std::uint32_t digits_of(std::string_view word) {
  std::uint32_t hash = 2166136261U;
  for (const char c : word) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
  return hash;
}

/// Devices of Windows, whatever the ending.
bool reserved(const std::string& name) {
  static constexpr std::array names{"con", "prn", "aux", "nul"};
  if (std::find(names.begin(), names.end(), name) != names.end()) return true;
  return name.size() == 4 && (name.starts_with("com") || name.starts_with("lpt"));
}

}  // namespace

std::string safe_file_name(std::string_view word) {
  std::string name;
  for (const char c : word) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (letter)
      name += c;
    else if (c >= 'A' && c <= 'Z')
      name += static_cast<char>(c - 'A' + 'a');
    else if (!name.empty() && name.back() != '-')
      name += '-';
  }
  while (name.ends_with('-')) name.pop_back();
  if (name == word && name.size() <= longest_kept && !name.empty() && !reserved(name)) return name;
  name.resize(std::min(name.size(), longest_beginning));
  return fmt::format("{}-{:08x}", name.empty() ? "site" : name, digits_of(word));
}

}  // namespace soilclock::report
