// SPDX-License-Identifier: MIT
#include <algorithm>

#include "core/csv.hpp"
#include "records/entries/codec.hpp"
#include "records/entries/field.hpp"
#include "records/entries/noted_units.hpp"
#include "records/export.hpp"

namespace soilclock::records {

namespace {

/// The columns of all kinds that occur, each once, in the order of the field lists.
std::vector<std::string> columns_for(const std::vector<Entry>& entries) {
  std::vector<std::string> columns;
  for (const RecordKind kind : all_kinds) {
    const bool occurs =
        entries.empty() || std::any_of(entries.begin(), entries.end(),
                                       [&](const Entry& entry) { return kind_of(entry.record) == kind; });
    if (!occurs) continue;
    for (const Field& field : fields_of(kind)) {
      if (std::find(columns.begin(), columns.end(), field.column) == columns.end())
        columns.push_back(field.column);
    }
  }
  return columns;
}

}  // namespace

std::string export_csv(const std::vector<Entry>& entries) {
  const std::vector<std::string> columns = columns_for(entries);
  const bool units = std::any_of(entries.begin(), entries.end(),
                                 [](const Entry& entry) { return !units_of(entry.record).empty(); });
  std::vector<std::string> heading{"id", "kind", "noted_at", "noted_by"};
  if (units) heading.emplace_back("noted_units");
  heading.insert(heading.end(), columns.begin(), columns.end());
  std::string text = csv_row(heading);
  for (const Entry& entry : entries) {
    const RecordKind kind = kind_of(entry.record);
    std::vector<std::string> cells{std::to_string(entry.id), std::string{name(kind)}, iso(entry.noted.at),
                                   entry.noted.by};
    if (units) cells.push_back(units_text(units_of(entry.record)));
    for (const std::string& column : columns) {
      const auto& fields = fields_of(kind);
      const auto field =
          std::find_if(fields.begin(), fields.end(), [&](const Field& f) { return f.column == column; });
      cells.push_back(field == fields.end() ? std::string{} : cell_text(field->read(entry.record)));
    }
    text += csv_row(cells);
  }
  return text;
}

}  // namespace soilclock::records
