// SPDX-License-Identifier: MIT
#include "records/import_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/text.hpp"
#include "records/csv.hpp"
#include "records/entries/codec.hpp"
#include "records/entries/field.hpp"
#include "records/entries/noted_units.hpp"
#include "records/entries/typed_record.hpp"

namespace soilclock::records {

namespace {

constexpr std::size_t most_problems = 20;

/// Columns of a table that are no fields of a record.
bool is_own(const std::string& heading) {
  static const std::set<std::string> own{"id", "kind", "noted_at", "noted_by", "noted_units"};
  return own.contains(heading);
}

/// A heading in the one way they are compared; who noted it is "by" where it is typed.
std::string plain_heading(std::string_view text) {
  std::string heading = lowered(trimmed(text));
  std::replace(heading.begin(), heading.end(), '-', '_');
  return heading == "by" ? "noted_by" : heading;
}

/// What a heading means to one kind of record.
struct Column {
  const Field* field;
  std::string unit;
};

/// The field and unit of a heading in one kind, null when it has no such column.
Column column_in(RecordKind kind, const std::string& heading) {
  for (const Field& field : fields_of(kind)) {
    if (heading == field.name) return {&field, {}};
    if (!field.quantity || !heading.starts_with(field.name + "_")) continue;
    const auto unit =
        unit_of_heading(std::string_view{heading}.substr(field.name.size() + 1), *field.quantity);
    if (unit) return {&field, *unit};
  }
  return {nullptr, {}};
}

bool is_known(std::string_view word) {
  const std::string heading = plain_heading(word);
  return is_own(heading) || std::any_of(std::begin(all_kinds), std::end(all_kinds), [&](RecordKind kind) {
           return column_in(kind, heading).field != nullptr;
         });
}

struct ReadRow {
  int line;
  Noted noted;
};

class Importer {
 public:
  Importer(const std::string& file, const Stamp& stamp, const ImportRules& rules)
      : file_{file}, stamp_{stamp}, rules_{rules} {}

  void read(const std::vector<CsvRow>& rows) {
    if (rows.empty()) return problem(1, 1, "the file is empty", {}, "a line of headings", {});
    read_heading(rows[0]);
    if (!problems_.empty()) return;  // without sound headings every row would be a problem
    for (std::size_t i = 1; i < rows.size() && problems_.size() < most_problems; ++i) read_row(rows[i]);
  }

  /// Asks about the rows that equal no entry; `sites` are the ids that are known already.
  void ask(const std::vector<Entry>& held, std::vector<std::string> sites) {
    std::set<std::string> keys;
    for (const Entry& entry : held) keys.insert(key_of(entry.record));
    for (const ReadRow& row : read_) {
      const Record& record = row.noted.record;
      const bool there = keys.contains(key_of(record));
      const auto question = there ? std::nullopt : question_about(record, held, sites, rules_.answered);
      if (question && problems_.size() < most_problems)
        problem(row.line, 1, question->what, question->found, question->expected, question->remedy);
      if (std::find(sites.begin(), sites.end(), site_of(record)) == sites.end())
        sites.push_back(site_of(record));
    }
  }

  const std::vector<Problem>& problems() const { return problems_; }
  const std::vector<ReadRow>& rows() const { return read_; }

 private:
  void problem(int line, std::size_t column, std::string what, std::string found, std::string expected,
               std::string remedy) {
    problems_.push_back({Family::data,
                         std::move(what),
                         {file_, line, static_cast<int>(column), {}},
                         std::move(found),
                         std::move(expected),
                         std::move(remedy)});
  }

  void read_heading(const CsvRow& row) {
    std::set<std::string> seen;
    for (std::size_t i = 0; i < row.size(); ++i) {
      std::string heading = plain_heading(row[i].text);
      check_heading(heading, row[i].line, i + 1);
      if (!seen.insert(heading).second)
        problem(row[i].line, i + 1, "this heading stands twice", heading, {}, {});
      headings_.push_back(std::move(heading));
    }
    if (!rules_.kind && !seen.contains("kind")) {
      problem(row[0].line, 1, "the heading 'kind' is missing", {},
              "application, count, reading, check, first-seen or strip in each row",
              "add the column, or say with --kind which kind the whole file is");
    }
  }

  void check_heading(const std::string& heading, int line, std::size_t column) {
    if (is_own(heading)) return;
    std::vector<std::string> known{"kind", "noted_at", "noted_by", "noted_units"};
    for (const RecordKind kind : all_kinds) {
      if (column_in(kind, heading).field != nullptr) return;
      for (const Field& field : fields_of(kind)) known.push_back(field.column);
    }
    const auto near = nearest(heading, known);
    const bool semicolons = heading.find(';') != std::string::npos;
    problem(line, column, "this heading is not known here", heading, "a heading as in an exported file",
            semicolons ? "save the table with commas between the cells"
                       : (near ? "did you mean '" + *near + "'?" : "remove the column"));
  }

  const CsvCell* cell_under(const CsvRow& row, std::string_view heading) const {
    for (std::size_t i = 0; i < headings_.size(); ++i) {
      if (headings_[i] == heading) return &row[i];
    }
    return nullptr;
  }

  void read_row(const CsvRow& row) {
    const int line = row[0].line;
    if (row.size() != headings_.size()) {
      return problem(line, row.size(), "this row has not as many cells as there are headings",
                     std::to_string(row.size()), std::to_string(headings_.size()), {});
    }
    const std::size_t before = problems_.size();
    const auto kind = kind_of_row(row);
    if (!kind) return;
    Record record = empty_record(*kind);
    for (std::size_t i = 0; i < row.size(); ++i) read_cell(record, row[i], i);
    read_noted_units(record, row);
    const Stamp stamp = stamp_of_row(row);
    if (problems_.size() > before) return;
    if (const Checked valid = validate(record); !valid) {
      Problem found = valid.error();
      return problem(line, 1, found.what, found.found, found.expected, found.remedy);
    }
    read_.push_back({line, {std::move(record), stamp}});
  }

  std::optional<RecordKind> kind_of_row(const CsvRow& row) {
    const CsvCell* cell = cell_under(row, "kind");
    const std::string word = cell == nullptr ? "" : lowered(trimmed(cell->text));
    if (word.empty() && rules_.kind) return rules_.kind;
    const auto kind = parse_kind(word);
    if (kind) return *kind;
    const Problem& found = kind.error();
    problem(cell->line, static_cast<std::size_t>(cell - row.data()) + 1, found.what, word, found.expected,
            found.remedy);
    return std::nullopt;
  }

  void read_cell(Record& record, const CsvCell& cell, std::size_t index) {
    const std::string& heading = headings_[index];
    if (is_own(heading) || cell.text.empty()) return;
    const Column column = column_in(kind_of(record), heading);
    if (column.field == nullptr) {
      if (trimmed(cell.text).empty()) return;
      return problem(cell.line, index + 1,
                     fmt::format("an entry of kind '{}' has no field '{}'", name(kind_of(record)), heading),
                     cell.text, "a blank cell", {});
    }
    const bool named = column.field->name == "target" && rules_.target_code;
    const std::string text = named ? rules_.target_code(cell.text) : cell.text;
    if (const Checked written = column.field->write(record, text, column.unit); !written) {
      const Problem& found = written.error();
      problem(cell.line, index + 1, found.what, found.found, found.expected, found.remedy);
    }
  }

  void read_noted_units(Record& record, const CsvRow& row) {
    const CsvCell* cell = cell_under(row, "noted_units");
    if (cell == nullptr || trimmed(cell->text).empty()) return;
    const auto units = read_units(cell->text, kind_of(record));
    if (units) {
      units_of(record) = *units;
      return;
    }
    problem(cell->line, static_cast<std::size_t>(cell - row.data()) + 1, units.error().what,
            units.error().found, units.error().expected, {});
  }

  Stamp stamp_of_row(const CsvRow& row) {
    Stamp stamp = stamp_;
    const CsvCell* by = cell_under(row, "noted_by");
    if (by != nullptr && !by->text.empty()) {
      const auto line = line_codec().parse(by->text, {});
      if (line)
        stamp.by = *line;
      else
        problem(by->line, static_cast<std::size_t>(by - row.data()) + 1, line.error().what, by->text,
                line.error().expected, {});
    }
    const CsvCell* at = cell_under(row, "noted_at");
    if (at == nullptr || trimmed(at->text).empty()) return stamp;
    // Who noted it goes with when: a name of today must not stand beside an old time.
    if (by == nullptr || by->text.empty()) stamp.by.clear();
    const auto instant = parse_iso_instant(trimmed(at->text));
    if (instant)
      stamp.at = *instant;
    else
      problem(at->line, static_cast<std::size_t>(at - row.data()) + 1, "this is no time of noting", at->text,
              "a time in UTC such as 2026-10-14T11:30:00Z", {});
    return stamp;
  }

  const std::string& file_;
  const Stamp& stamp_;
  const ImportRules& rules_;
  std::vector<std::string> headings_;
  std::vector<Problem> problems_;
  std::vector<ReadRow> read_;
};

}  // namespace

ImportResult import_csv(Store& store, std::string_view text, const std::string& file, const Stamp& stamp,
                        const ImportRules& rules) {
  using Problems = std::vector<Problem>;
  if (!trimmed(text).empty() && !has_heading(text, is_known)) {
    return fail(Problems{{Family::data,
                          "this is no table of records: none of its headings is known here",
                          {file, 1, {}, {}},
                          {},
                          "headings as in an exported file, with commas between them",
                          "check that this is the right file"}});
  }
  const auto rows = parse_csv(text, file);
  if (!rows) return fail(Problems{rows.error()});
  Importer importer{file, stamp, rules};
  importer.read(*rows);
  const auto held = store.list({});
  if (!held) return fail(Problems{held.error()});
  const auto sites = store.sites(true);
  if (!sites) return fail(Problems{sites.error()});
  importer.ask(*held, *sites);
  if (!importer.problems().empty()) return fail(importer.problems());
  std::vector<Noted> records;
  for (const ReadRow& row : importer.rows()) records.push_back(row.noted);
  const auto placed = store.add_missing(records);
  if (!placed) return fail(Problems{placed.error()});
  Imported imported;
  for (std::size_t i = 0; i < placed->size(); ++i) {
    const Placed& one = (*placed)[i];
    if (one.held)
      imported.duplicates.push_back({importer.rows()[i].line, one.id});
    else
      imported.added.push_back(one.id);
  }
  return imported;
}

}  // namespace soilclock::records
