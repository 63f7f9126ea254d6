// SPDX-License-Identifier: MIT
// The records file: notes are added, listed, corrected and taken out, and nothing once confirmed is ever lost
// or overwritten. When a function here returns an id, the entry is on the disk. The clock is never read: who
// and when are arguments.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/time_zone.hpp"
#include "records/database.hpp"
#include "records/entries/record.hpp"

namespace soilclock::records {

using EntryId = std::int64_t;

/// Who noted something, and when (which is not the day it was done).
struct Stamp {
  Instant at{};
  std::string by;  ///< one line, may be empty
};

struct Entry {
  EntryId id = 0;
  Stamp noted;
  Record record;
};

/// One step in the life of an entry; without a record it was taken out.
struct HistoryStep {
  EntryId id = 0;
  Stamp noted;
  std::optional<Record> record;
};

/// Which entries; an empty part means all.
struct Selection {
  std::optional<std::string> site;
  std::optional<RecordKind> kind;
  std::optional<DayRange> days;
};

/// A record together with its stamp, for writing many at once.
struct Noted {
  Record record;
  Stamp noted;
};

/// Where a record ended up: under a new id, or equal to an entry that was there.
struct Placed {
  EntryId id = 0;
  bool held = false;
};

class Store {
 public:
  /// See Database::open for the problems.
  static Result<Store> open(const std::string& path, Access access);

  /// Problems of all writing functions: request - the record is not valid (validate), no such entry, not the
  /// present form of it; environment - the file cannot be written. Then nothing was changed.
  Result<EntryId> add(const Record& record, const Stamp& stamp);
  /// Adds those that the file does not hold yet, all in one transaction or none. Held is what equals a
  /// present entry in every field; each present entry answers for one record only, so that two equal counts
  /// of one day stay two. The result has one item a record, in their order.
  Result<std::vector<Placed>> add_missing(const std::vector<Noted>& records);
  /// Puts a new form of an entry in the place of the present one, which stays in the history. The kind must
  /// stay.
  Result<EntryId> correct(EntryId id, const Record& record, const Stamp& stamp);
  /// Takes an entry out of all lists; it stays in the history.
  Result<EntryId> remove(EntryId id, const Stamp& stamp);

  /// Entries in their present form by date, then id. Problem (data): the file holds what no version of this
  /// program writes.
  Result<std::vector<Entry>> list(const Selection& selection);
  /// The present form of an entry. Problem (request): there is none, or the id is of an older form.
  Result<Entry> entry(EntryId id);
  /// All forms of an entry, oldest first, whichever of its ids is given.
  Result<std::vector<HistoryStep>> history(EntryId id);

  /// The ids of all sites that have entries, in order; with `weather_too` also those weather is stored for.
  Result<std::vector<std::string>> sites(bool weather_too = false);

  Database& database() { return database_; }

 private:
  explicit Store(Database database) : database_{std::move(database)} {}
  EntryId insert(const Record& record, const Stamp& stamp, std::optional<EntryId> supersedes);
  EntryId insert_entry(const Record& record, const Stamp& stamp, std::optional<EntryId> supersedes,
                       bool removed);
  RecordKind require_present(EntryId id);
  std::vector<Entry> present(const Selection& selection);
  std::vector<Entry> select(RecordKind kind, const std::string& condition,
                            const std::vector<SqlValue>& values);
  Entry form(RecordKind kind, EntryId id);
  Database database_;
};

/// The records of one kind among entries, without ids: what a calculation wants.
template <class Kind>
std::vector<Kind> only(const std::vector<Entry>& entries) {
  std::vector<Kind> result;
  for (const Entry& entry : entries) {
    if (const auto* record = std::get_if<Kind>(&entry.record)) result.push_back(*record);
  }
  return result;
}

}  // namespace soilclock::records
