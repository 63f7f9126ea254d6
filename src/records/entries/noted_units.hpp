// SPDX-License-Identifier: MIT
// The units a record was noted in, as the text that stands for them in the database and in exports.
#pragma once

#include <string>
#include <string_view>

#include "core/problem.hpp"
#include "records/entries/record.hpp"

namespace soilclock::records {

/// "depth in; temperature F"; "" when all was noted in the kept units.
std::string units_text(const NotedUnits& units);

/// Reads what units_text writes. Problem (request): a field the kind does not measure, a unit it has not.
Result<NotedUnits> read_units(std::string_view text, RecordKind kind);

}  // namespace soilclock::records
