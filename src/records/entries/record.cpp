// SPDX-License-Identifier: MIT
#include "records/entries/record.hpp"

#include <algorithm>

#include "core/text.hpp"

namespace soilclock::records {

std::string_view name(RecordKind kind) {
  switch (kind) {
    case RecordKind::application:
      return "application";
    case RecordKind::count:
      return "count";
    case RecordKind::reading:
      return "reading";
    case RecordKind::check:
      return "check";
    case RecordKind::first_seen:
      return "first-seen";
    case RecordKind::strip:
      break;
  }
  return "strip";
}

std::optional<RecordKind> kind_named(std::string_view word) {
  for (const RecordKind kind : all_kinds) {
    if (name(kind) == word) return kind;
  }
  return std::nullopt;
}

RecordKind kind_of(const Record& record) { return all_kinds[record.index()]; }

Record empty_record(RecordKind kind) {
  switch (kind) {
    case RecordKind::application:
      return Application{};
    case RecordKind::count:
      return ScoutingCount{};
    case RecordKind::reading:
      return ProbeReading{};
    case RecordKind::check:
      return EyeCheck{};
    case RecordKind::first_seen:
      return FirstSeen{};
    case RecordKind::strip:
      break;
  }
  return StripCheck{};
}

const std::string& site_of(const Record& record) {
  return std::visit([](const auto& r) -> const std::string& { return r.site; }, record);
}

const std::string& area_of(const Record& record) {
  return std::visit([](const auto& r) -> const std::string& { return r.area; }, record);
}

std::string bare_name(std::string_view name) {
  std::string folded = lowered(name);
  std::erase_if(folded, [](char c) { return c == ' ' || c == '-' || c == '_'; });
  return folded;
}

Day date_of(const Record& record) {
  return std::visit([](const auto& r) { return r.date.value(); }, record);
}

const NotedUnits& units_of(const Record& record) {
  return std::visit([](const auto& r) -> const NotedUnits& { return r.units; }, record);
}

NotedUnits& units_of(Record& record) {
  return std::visit([](auto& r) -> NotedUnits& { return r.units; }, record);
}

}  // namespace soilclock::records
