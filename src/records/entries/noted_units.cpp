// SPDX-License-Identifier: MIT
#include "records/entries/noted_units.hpp"

#include <fmt/format.h>

#include "core/text.hpp"
#include "records/entries/field.hpp"

namespace soilclock::records {

std::string units_text(const NotedUnits& units) {
  std::vector<std::string> parts;
  for (const auto& [field, unit] : units) parts.push_back(field + " " + unit);
  return fmt::format("{}", fmt::join(parts, "; "));
}

Result<NotedUnits> read_units(std::string_view text, RecordKind kind) {
  NotedUnits units;
  if (trimmed(text).empty()) return units;
  for (const std::string& part : split_list(text, false)) {
    const auto blank = part.find(' ');
    const Field* field = find_field(kind, part.substr(0, blank));
    const std::string unit = blank == std::string::npos ? "" : part.substr(blank + 1);
    if (field == nullptr || !field->quantity || !in_unit(0.0, *field->quantity, unit)) {
      return fail({Family::request,
                   "these are no units of an entry",
                   {},
                   part,
                   "a measured field and its unit, such as 'temperature F'",
                   {}});
    }
    units[field->name] = unit;
  }
  return units;
}

}  // namespace soilclock::records
