// SPDX-License-Identifier: MIT
#include "records/stored_values.hpp"

namespace soilclock::records {

namespace {

[[noreturn]] void refuse_content(const std::string& path) {
  throw StorageProblem{{Family::data,
                        "the weather kept in the records file cannot be read",
                        {path, {}, {}, {}},
                        {},
                        {},
                        "the file was changed by something else; put a copy of it back in its place"}};
}

}  // namespace

std::optional<double> number_of(const Statement& row, int column) {
  const SqlValue value = row.value(column);
  if (const auto* real = std::get_if<double>(&value)) return *real;
  if (const auto* whole = std::get_if<std::int64_t>(&value)) return static_cast<double>(*whole);
  return std::nullopt;
}

Instant instant_of(const Statement& row, int column, const std::string& path) {
  const auto at = parse_iso_instant(row.text(column));
  if (!at) refuse_content(path);
  return *at;
}

Day day_of(const Statement& row, int column, const std::string& path) {
  const auto day = parse_iso_day(row.text(column));
  if (!day) refuse_content(path);
  return *day;
}

}  // namespace soilclock::records
