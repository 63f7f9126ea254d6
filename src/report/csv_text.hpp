// SPDX-License-Identifier: MIT
// Writing comma-separated values as RFC 4180 has them (lines end with a bare line feed).
#pragma once

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace soilclock::report {

/// A field, quoted when it holds a comma, a quote or a line end.
inline std::string csv_field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string{"\"\""} : std::string{c};
  return quoted + "\"";
}

inline std::string csv_row(const std::vector<std::string>& fields) {
  std::string row;
  for (std::size_t i = 0; i < fields.size(); ++i) row += (i == 0 ? "" : ",") + csv_field(fields[i]);
  return row + "\n";
}

/// A number with so many decimals; empty when not a number.
inline std::string csv_number(double value, int decimals) {
  return std::isfinite(value) ? fmt::format("{:.{}f}", value, decimals) : std::string{};
}

/// The amount of an optional quantity; empty when missing.
template <class Value>
std::string csv_number(const std::optional<Value>& value, double (Value::*amount)() const, int decimals) {
  return value ? csv_number(((*value).*amount)(), decimals) : std::string{};
}

}  // namespace soilclock::report
