// SPDX-License-Identifier: MIT
#include "records/log_request.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "records/field.hpp"

namespace soilclock::records {

namespace {

tl::unexpected<Problem> refuse(std::string what, std::string found, std::string expected,
                               std::string remedy) {
  return fail(
      {Family::request, std::move(what), {}, std::move(found), std::move(expected), std::move(remedy)});
}

tl::unexpected<Problem> unknown_field(RecordKind kind, const std::string& typed) {
  std::vector<std::string> known;
  for (const Field& field : fields_of(kind)) known.push_back(field.name);
  const auto near = nearest(typed, known);
  return refuse(fmt::format("an entry of kind '{}' has no such field", name(kind)), typed,
                "one of " + listed(known), near ? "did you mean '" + *near + "'?" : "");
}

std::string joined(const std::vector<std::string>& values) {
  return fmt::format("{}", fmt::join(values, "; "));
}

/// Two decimals at most: finer than any instrument resolves, and no trace of the conversion.
std::string number_words(double value) { return fmt::format("{:.6g}", std::round(100.0 * value) / 100.0); }

std::string measure_words(const Field& field, double value, LineUnits units) {
  const std::string kept = number_words(value) + std::string{own_unit(field)};
  if (us_unit(*field.quantity).empty() || units == LineUnits::metric) return kept;
  const std::string us =
      number_words(in_us_unit(value, *field.quantity)) + std::string{us_unit(*field.quantity)};
  return units == LineUnits::us ? us : us + " (" + kept + ")";
}

std::string shown(const Field& field, const Cell& cell, LineUnits units) {
  std::string text = cell_text(cell);
  if (field.is_list) std::replace(text.begin(), text.end(), ';', ',');  // ';' stands between the fields
  if (!field.quantity) return fmt::format("{} {}", field.name, text);
  if (!std::holds_alternative<double>(cell)) return fmt::format("{} {}{}", field.name, text, own_unit(field));
  return fmt::format("{} {}", field.name, measure_words(field, std::get<double>(cell), units));
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

Result<std::vector<Given>> parse_pairs(const std::vector<std::string>& pieces) {
  std::vector<Given> fields;
  for (const std::string& piece : pieces) {
    const auto equals = piece.find('=');
    if (equals == std::string::npos || equals == 0) {
      return refuse("this is no field with a value", piece, "NAME=VALUE such as date=2026-10-14", {});
    }
    const std::string typed = piece.substr(0, equals);
    const auto known =
        std::find_if(fields.begin(), fields.end(), [&](const Given& g) { return g.name == typed; });
    if (known == fields.end())
      fields.push_back({typed, {piece.substr(equals + 1)}});
    else
      known->values.push_back(piece.substr(equals + 1));
  }
  return fields;
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

std::string one_line(const Entry& entry, LineUnits units) {
  constexpr std::size_t shown_apart = 2;  // site and date stand in front
  const RecordKind kind = kind_of(entry.record);
  const std::vector<Field>& fields = fields_of(kind);
  std::vector<std::string> parts;
  for (std::size_t i = shown_apart; i < fields.size(); ++i) {
    const Cell cell = fields[i].read(entry.record);
    if (!std::holds_alternative<std::monostate>(cell)) parts.push_back(shown(fields[i], cell, units));
  }
  std::string line = fmt::format("{}  {}  {}  {}  {}", entry.id, iso(date_of(entry.record)),
                                 site_of(entry.record), name(kind), joined(parts));
  std::replace_if(
      line.begin(), line.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
  return line;
}

}  // namespace soilclock::records
