// SPDX-License-Identifier: MIT
// Numbers and texts as cells of comma-separated values.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include "core/csv.hpp"
#include "core/dates.hpp"
#include "core/number_text.hpp"

namespace soilclock::report {

/// A number with so many decimals; empty when not a number.
inline std::string csv_number(double value, int decimals) {
  return std::isfinite(value) ? number_text(value, decimals) : std::string{};
}

/// The amount of an optional quantity; empty when missing.
template <class Value>
std::string csv_number(const std::optional<Value>& value, double (Value::*amount)() const, int decimals) {
  return value ? csv_number(((*value).*amount)(), decimals) : std::string{};
}

/// A day as "YYYY-MM-DD"; empty where there is none.
inline std::string csv_date(const std::optional<Day>& day) { return day ? iso(*day) : std::string{}; }

/// Text that comes from people or files as a cell. One that a spreadsheet would run as a formula (it begins
/// with =, +, -, @ or a tab) gets an apostrophe before it, which a spreadsheet takes as "this is text".
inline std::string csv_words(const std::string& text) {
  const bool formula =
      !text.empty() && std::string_view{"=+-@\t"}.find(text.front()) != std::string_view::npos;
  return formula ? "'" + text : text;
}

}  // namespace soilclock::report
