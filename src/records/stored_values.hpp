// SPDX-License-Identifier: MIT
// Numbers, days and instants from the columns of a table and back. What no version of this program writes is
// thrown as a StorageProblem.
#pragma once

#include <optional>
#include <string>

#include "core/dates.hpp"
#include "core/time_zone.hpp"
#include "records/database.hpp"

namespace soilclock::records {

inline SqlValue sql_or_null(const std::optional<double>& value) {
  return value ? SqlValue{*value} : SqlValue{};
}

template <class Value>
SqlValue sql_or_null(const std::optional<Value>& value, double (Value::*number)() const) {
  return value ? SqlValue{((*value).*number)()} : SqlValue{};
}

/// A number of either kind; nothing for NULL.
std::optional<double> number_of(const Statement& row, int column);

template <class Value>
std::optional<Value> value_of(const Statement& row, int column, Value (*make)(double)) {
  const auto read = number_of(row, column);
  return read ? std::optional{make(*read)} : std::nullopt;
}

/// `path` is the file, for the problem.
Instant instant_of(const Statement& row, int column, const std::string& path);
Day day_of(const Statement& row, int column, const std::string& path);

}  // namespace soilclock::records
