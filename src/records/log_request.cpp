// SPDX-License-Identifier: MIT
#include "records/log_request.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "records/field.hpp"

namespace soilclock::records {

namespace {

Failure<Problem> refuse(std::string what, std::string found, std::string expected, std::string remedy) {
  return fail(
      {Family::request, std::move(what), {}, std::move(found), std::move(expected), std::move(remedy)});
}

Failure<Problem> unknown_field(RecordKind kind, const std::string& typed) {
  std::vector<std::string> known;
  for (const Field& field : fields_of(kind)) known.push_back(field.name);
  const auto near = nearest(typed, known);
  return refuse(fmt::format("an entry of kind '{}' has no such field", name(kind)), typed,
                "one of " + listed(known), near ? "did you mean '" + *near + "'?" : "");
}

std::string joined(const std::vector<std::string>& values) {
  return fmt::format("{}", fmt::join(values, "; "));
}

/// A kept value in the unit it was noted in; Celsius with Fahrenheit beside it, since entries made before
/// units were noted are all in Celsius.
std::string measure_words(double stored, Quantity quantity, std::string_view noted_unit) {
  const auto with_unit = [](double value, std::string_view unit) {
    return fmt::format("{}{}{}", value, unit == "%" ? "" : " ", unit);
  };
  if (const auto noted = in_unit(stored, quantity, noted_unit)) return with_unit(*noted, noted_unit);
  const std::string text =
      fmt::format("{}{}{}", stored, quantity == Quantity::percent ? "" : " ", stored_unit(quantity));
  if (quantity != Quantity::temperature) return text;
  return fmt::format("{} ({} F)", text, number_text(Temperature::from_celsius(stored).fahrenheit(), 1));
}

std::string shown(const Field& field, const Record& record) {
  const Cell cell = field.read(record);
  if (field.quantity) {
    const NotedUnits& units = units_of(record);
    const auto unit = units.find(field.name);
    return field.name + " " +
           measure_words(std::get<double>(cell), *field.quantity, unit == units.end() ? "" : unit->second);
  }
  std::string text = cell_text(cell);
  if (field.is_list) std::replace(text.begin(), text.end(), ';', ',');  // ';' stands between the fields
  return fmt::format("{} {}", field.name, text);
}

}  // namespace

Result<RecordKind> parse_kind(std::string_view word) {
  if (const auto kind = kind_named(lowered(word))) return *kind;
  std::vector<std::string> known;
  for (const RecordKind kind : all_kinds) known.emplace_back(name(kind));
  const auto near = nearest(word, known);
  return refuse("this kind of entry is not known", std::string{word}, "one of " + listed(known),
                near ? "did you mean '" + *near + "'?" : "");
}

Result<Record> make_record(RecordKind kind, const std::vector<Given>& fields) {
  return changed_record(empty_record(kind), fields);
}

Result<Record> changed_record(const Record& record, const std::vector<Given>& fields) {
  const RecordKind kind = kind_of(record);
  Record changed = record;
  for (const Given& given : fields) {
    const Field* field = find_field(kind, given.name);
    if (field == nullptr) return unknown_field(kind, given.name);
    if (given.values.size() > 1 && !field->is_list) {
      return refuse(fmt::format("field '{}' is given more than once", field->name), joined(given.values),
                    "one value", {});
    }
    if (const Checked written = field->write(changed, joined(given.values), {}); !written)
      return fail(written.error());
  }
  if (const Checked valid = validate(changed); !valid) return fail(valid.error());
  return changed;
}

std::string one_line(const Entry& entry) {
  constexpr std::size_t shown_apart = 2;  // site and date stand in front
  const RecordKind kind = kind_of(entry.record);
  const std::vector<Field>& fields = fields_of(kind);
  std::vector<std::string> parts;
  for (std::size_t i = shown_apart; i < fields.size(); ++i) {
    const bool noted = !std::holds_alternative<std::monostate>(fields[i].read(entry.record));
    if (noted) parts.push_back(shown(fields[i], entry.record));
  }
  std::string line = fmt::format("{}  {}  {}  {}  {}", entry.id, iso(date_of(entry.record)),
                                 site_of(entry.record), name(kind), joined(parts));
  std::replace_if(
      line.begin(), line.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
  return line;
}

}  // namespace soilclock::records
