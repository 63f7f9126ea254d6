// SPDX-License-Identifier: MIT
// From what somebody typed to a record, so that the command line and the site file stay thin. Options can be
// made from fields_of(kind): name, meaning, expected, required, is_list.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/problem.hpp"
#include "records/entries/record.hpp"

namespace soilclock::records {

/// A field as it was typed: --active prodiamine --active simazine is {"active", {"prodiamine", "simazine"}}.
struct Given {
  std::string name;  ///< "-" and "_" are the same
  std::vector<std::string> values;
};

/// "application", "count", "reading", "check", "first-seen" in any case. Problem (request) with the nearest
/// word.
Result<RecordKind> parse_kind(std::string_view word);

/// A valid record of the given fields. Measured values need their unit ("55F", "2in", "8mph"); several values
/// of a list field are joined. Problem (request): unknown field (with the nearest one), two values where one
/// belongs, a value that cannot be read, or what validate() refuses.
Result<Record> make_record(RecordKind kind, const std::vector<Given>& fields);

/// The record with the given fields replaced; an empty value makes a field "not noted". Problems as
/// make_record.
Result<Record> changed_record(const Record& record, const std::vector<Given>& fields);

}  // namespace soilclock::records
