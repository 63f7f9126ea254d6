// SPDX-License-Identifier: MIT
#include <nlohmann/json.hpp>

#include "records/entries/codec.hpp"
#include "records/entries/field.hpp"
#include "records/export.hpp"

namespace soilclock::records {

namespace {

using Json = nlohmann::ordered_json;

Json json_of(const Cell& cell) {
  struct Value {
    Json operator()(std::monostate) const { return nullptr; }
    Json operator()(const std::string& text) const { return text; }
    Json operator()(double value) const { return value; }
    Json operator()(std::int64_t value) const { return value; }
    Json operator()(const std::vector<std::string>& items) const { return items; }
    Json operator()(const std::vector<int>& items) const { return items; }
  };
  return std::visit(Value{}, cell);
}

}  // namespace

std::string export_json(const std::vector<Entry>& entries) {
  Json list = Json::array();
  for (const Entry& entry : entries) {
    const RecordKind kind = kind_of(entry.record);
    Json object;
    object["id"] = entry.id;
    object["kind"] = name(kind);
    object["noted_at"] = iso(entry.noted.at);
    object["noted_by"] = entry.noted.by;
    if (!units_of(entry.record).empty()) object["noted_units"] = units_of(entry.record);
    for (const Field& field : fields_of(kind)) object[field.column] = json_of(field.read(entry.record));
    list.push_back(std::move(object));
  }
  Json document;
  document["format"] = "soilclock-records";
  document["version"] = 1;
  document["entries"] = std::move(list);
  return document.dump(1) + "\n";
}

}  // namespace soilclock::records
