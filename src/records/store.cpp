// SPDX-License-Identifier: MIT
#include "records/store.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>

#include "records/entries/codec.hpp"
#include "records/entries/field.hpp"
#include "records/entries/noted_units.hpp"
#include "records/schema.hpp"

namespace soilclock::records {

namespace {

/// Site and date stand in the table of all entries, the other fields in the table of their kind.
constexpr std::size_t shared_fields = 2;

void require_valid(const Record& record) {
  if (const Checked valid = validate(record); !valid) throw StorageProblem{valid.error()};
}

void require_valid(const Stamp& stamp) {
  const auto by = line_codec().parse(stamp.by, {});
  if (!by) {
    Problem problem = by.error();
    problem.what = "who noted it: " + problem.what;
    throw StorageProblem{problem};
  }
}

SqlValue sql_value(const Cell& cell) {
  if (std::holds_alternative<std::monostate>(cell)) return std::monostate{};
  if (const auto* number = std::get_if<double>(&cell)) return *number;
  if (const auto* whole = std::get_if<std::int64_t>(&cell)) return *whole;
  return cell_text(cell);
}

std::string text_of(const SqlValue& value) {
  if (const auto* number = std::get_if<double>(&value)) return fmt::format("{}", *number);
  if (const auto* whole = std::get_if<std::int64_t>(&value)) return fmt::format("{}", *whole);
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  return {};
}

std::string columns_of(RecordKind kind) {
  std::string text = "e.id, e.noted_at, e.noted_by, e.noted_units";
  std::size_t index = 0;
  for (const Field& field : fields_of(kind)) {
    text += fmt::format(", {}.\"{}\"", index++ < shared_fields ? "e" : "d", field.column);
  }
  return text;
}

constexpr int units_column = 3;
constexpr int fixed_columns = 4;

[[noreturn]] void refuse_content(const std::string& path, EntryId id, const std::string& what) {
  throw StorageProblem{{Family::data,
                        fmt::format("entry {} cannot be read: {}", id, what),
                        {path, {}, {}, {}},
                        {},
                        {},
                        "the file was changed by something else; put a copy of it back in its place"}};
}

Stamp stamp_of(const Statement& row, int first, const std::string& path, EntryId id) {
  const auto at = parse_iso_instant(row.text(first));
  if (!at) refuse_content(path, id, "its time of noting is no time");
  return {*at, row.text(first + 1)};
}

Record record_of(const Statement& row, RecordKind kind, int first, const std::string& path, EntryId id) {
  Record record = empty_record(kind);
  int column = first;
  for (const Field& field : fields_of(kind)) {
    const Checked written = field.write(record, text_of(row.value(column++)), own_unit(field));
    if (!written) refuse_content(path, id, written.error().what);
  }
  const auto units = read_units(row.text(units_column), kind);
  if (!units) refuse_content(path, id, units.error().what);
  units_of(record) = *units;
  return record;
}

[[noreturn]] void refuse_id(EntryId id, std::string what, std::string remedy) {
  throw StorageProblem{
      {Family::request, fmt::format("entry {} {}", id, what), {}, {}, {}, std::move(remedy)}};
}

}  // namespace

Result<Store> Store::open(const std::string& path, Access access) {
  return Database::open(path, records_schema(), access).map([](Database&& database) {
    return Store{std::move(database)};
  });
}

EntryId Store::insert_entry(const Record& record, const Stamp& stamp, std::optional<EntryId> supersedes,
                            bool removed) {
  database_
      .prepare(
          "INSERT INTO entry(kind, site, date, supersedes, removed, noted_at, noted_by, noted_units) VALUES "
          "(?,?,?,?,?,?,?,?)")
      .bind({std::string{name(kind_of(record))}, site_of(record), soilclock::iso(date_of(record)),
             supersedes ? SqlValue{*supersedes} : SqlValue{}, std::int64_t{removed ? 1 : 0}, iso(stamp.at),
             stamp.by, units_text(units_of(record))})
      .run();
  return database_.last_id();
}

EntryId Store::insert(const Record& record, const Stamp& stamp, std::optional<EntryId> supersedes) {
  const RecordKind kind = kind_of(record);
  const EntryId id = insert_entry(record, stamp, supersedes, false);
  const std::vector<Field>& fields = fields_of(kind);
  std::string columns = "entry";
  std::string marks = "?";
  std::vector<SqlValue> values{id};
  for (std::size_t i = shared_fields; i < fields.size(); ++i) {
    columns += fmt::format(", \"{}\"", fields[i].column);
    marks += ", ?";
    values.push_back(sql_value(fields[i].read(record)));
  }
  database_.prepare(fmt::format("INSERT INTO \"{}\"({}) VALUES ({})", name(kind), columns, marks))
      .bind(values)
      .run();
  return id;
}

Result<EntryId> Store::add(const Record& record, const Stamp& stamp) {
  return guarded([&] {
    require_valid(record);
    require_valid(stamp);
    Transaction transaction{database_, true};
    const EntryId id = insert(record, stamp, std::nullopt);
    transaction.commit();
    return id;
  });
}

Result<std::vector<Placed>> Store::add_missing(const std::vector<Noted>& records) {
  return guarded([&] {
    for (const Noted& noted : records) {
      require_valid(noted.record);
      require_valid(noted.noted);
    }
    Transaction transaction{database_, true};
    std::multimap<std::string, EntryId> held;
    for (const Entry& entry : present({})) held.emplace(key_of(entry.record), entry.id);
    std::vector<Placed> placed;
    for (const Noted& noted : records) {
      const auto same = held.find(key_of(noted.record));
      if (same == held.end()) {
        placed.push_back({insert(noted.record, noted.noted, std::nullopt), false});
      } else {
        placed.push_back({same->second, true});
        held.erase(same);
      }
    }
    transaction.commit();
    return placed;
  });
}

RecordKind Store::require_present(EntryId id) {
  Statement row = database_.prepare(
      "SELECT e.kind, e.removed, (SELECT n.id FROM entry n WHERE n.supersedes = e.id) FROM entry e WHERE "
      "e.id = ?");
  row.bind({id});
  if (!row.step()) refuse_id(id, "does not exist", "list the entries to see their numbers");
  if (row.integer(1) != 0)
    refuse_id(id, "is the note of a removal", "add the record again if it was right after all");
  if (!row.is_null(2)) {
    refuse_id(id, fmt::format("was changed by entry {}", row.integer(2)),
              "look at its history for the present form");
  }
  const auto kind = kind_named(row.text(0));
  if (!kind) refuse_content(database_.path(), id, "its kind is not known");
  return *kind;
}

Result<EntryId> Store::correct(EntryId id, const Record& record, const Stamp& stamp) {
  return guarded([&] {
    require_valid(record);
    require_valid(stamp);
    Transaction transaction{database_, true};
    const RecordKind kind = require_present(id);
    if (kind != kind_of(record)) {
      refuse_id(id, fmt::format("is of kind '{}', not '{}'", name(kind), name(kind_of(record))),
                "remove it and add one of the other kind");
    }
    const EntryId corrected = insert(record, stamp, id);
    transaction.commit();
    return corrected;
  });
}

Result<EntryId> Store::remove(EntryId id, const Stamp& stamp) {
  return guarded([&] {
    require_valid(stamp);
    Transaction transaction{database_, true};
    const RecordKind kind = require_present(id);
    const Record present = form(kind, id).record;
    const EntryId removal = insert_entry(present, stamp, id, true);
    transaction.commit();
    return removal;
  });
}

std::vector<Entry> Store::select(RecordKind kind, const std::string& condition,
                                 const std::vector<SqlValue>& values) {
  Statement rows =
      database_.prepare(fmt::format("SELECT {} FROM entry e JOIN \"{}\" d ON d.entry = e.id WHERE {}",
                                    columns_of(kind), name(kind), condition));
  rows.bind(values);
  std::vector<Entry> entries;
  while (rows.step()) {
    const EntryId id = rows.integer(0);
    entries.push_back({id, stamp_of(rows, 1, database_.path(), id),
                       record_of(rows, kind, fixed_columns, database_.path(), id)});
  }
  return entries;
}

Entry Store::form(RecordKind kind, EntryId id) {
  std::vector<Entry> found = select(kind, "e.id = ?", {id});
  if (found.empty()) refuse_content(database_.path(), id, "its fields are missing");
  return std::move(found.front());
}

std::vector<Entry> Store::present(const Selection& selection) {
  std::string condition = "NOT EXISTS (SELECT 1 FROM entry n WHERE n.supersedes = e.id) AND e.removed = 0";
  std::vector<SqlValue> values;
  if (selection.site) {
    condition += " AND e.site = ?";
    values.emplace_back(*selection.site);
  }
  if (selection.days) {
    condition += " AND e.date >= ? AND e.date < ?";
    values.emplace_back(soilclock::iso(selection.days->begin()));
    values.emplace_back(soilclock::iso(selection.days->end()));
  }
  std::vector<Entry> entries;
  for (const RecordKind kind : all_kinds) {
    if (selection.kind && *selection.kind != kind) continue;
    std::vector<Entry> some = select(kind, condition, values);
    std::move(some.begin(), some.end(), std::back_inserter(entries));
  }
  std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
    return std::pair{date_of(a.record), a.id} < std::pair{date_of(b.record), b.id};
  });
  return entries;
}

Result<std::vector<Entry>> Store::list(const Selection& selection) {
  return guarded([&] {
    const Transaction reading{database_, false};  // all kinds as of one moment
    return present(selection);
  });
}

Result<std::vector<std::string>> Store::sites(bool weather_too) {
  return guarded([&] {
    std::string query =
        "SELECT site FROM entry e WHERE e.removed = 0 AND NOT EXISTS (SELECT 1 FROM entry n WHERE "
        "n.supersedes "
        "= e.id)";
    if (weather_too) query += " UNION SELECT site FROM weather_series";
    Statement rows = database_.prepare("SELECT DISTINCT site FROM (" + query + ") ORDER BY site");
    std::vector<std::string> sites;
    while (rows.step()) sites.push_back(rows.text(0));
    return sites;
  });
}

Result<Entry> Store::entry(EntryId id) {
  return guarded([&] {
    const Transaction reading{database_, false};
    const RecordKind kind = require_present(id);
    return form(kind, id);
  });
}

Result<std::vector<HistoryStep>> Store::history(EntryId id) {
  return guarded([&] {
    const Transaction reading{database_, false};
    Statement chain = database_.prepare(R"sql(
      WITH RECURSIVE
        older(id) AS (SELECT ?1 UNION SELECT e.supersedes FROM entry e JOIN older o ON e.id = o.id
                      WHERE e.supersedes IS NOT NULL),
        newer(id) AS (SELECT ?1 UNION SELECT e.id FROM entry e JOIN newer n ON e.supersedes = n.id)
      SELECT id, kind, removed, noted_at, noted_by FROM entry
      WHERE id IN (SELECT id FROM older UNION SELECT id FROM newer) ORDER BY id)sql");
    chain.bind({id});
    std::vector<HistoryStep> steps;
    while (chain.step()) {
      HistoryStep step{chain.integer(0), stamp_of(chain, 3, database_.path(), chain.integer(0)),
                       std::nullopt};
      const auto kind = kind_named(chain.text(1));
      if (!kind) refuse_content(database_.path(), step.id, "its kind is not known");
      if (chain.integer(2) == 0) step.record = form(*kind, step.id).record;
      steps.push_back(std::move(step));
    }
    if (steps.empty()) refuse_id(id, "does not exist", "list the entries to see their numbers");
    return steps;
  });
}

}  // namespace soilclock::records
