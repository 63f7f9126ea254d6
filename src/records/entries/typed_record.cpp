// SPDX-License-Identifier: MIT
#include "records/entries/typed_record.hpp"

#include <fmt/format.h>

#include "core/text.hpp"
#include "records/entries/field.hpp"

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

}  // namespace soilclock::records
