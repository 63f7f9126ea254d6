// SPDX-License-Identifier: MIT
#include "records/advice_store.hpp"

#include "records/stored_values.hpp"

namespace soilclock::records {

namespace {

SqlValue day_or_null(const std::optional<Day>& day) { return day ? SqlValue{iso(*day)} : SqlValue{}; }

std::optional<Day> day_where_known(const Statement& row, int column, const std::string& path) {
  if (row.is_null(column)) return std::nullopt;
  return day_of(row, column, path);
}

void insert_events(Database& database, const std::vector<StoredEvent>& events) {
  Statement insert = database.prepare(
      "INSERT OR REPLACE INTO announced(site, target, season_start, event, first, after) VALUES "
      "(?,?,?,?,?,?)");
  for (const StoredEvent& event : events)
    insert
        .bind({event.site, event.target, iso(event.season_start), event.event, iso(event.days.begin()),
               iso(event.days.end())})
        .run();
}

}  // namespace

Checked AdviceStore::put(const std::vector<StoredAdvice>& answers, const std::vector<StoredEvent>& events) {
  return guarded([&] {
    Transaction transaction{database_, true};
    insert_events(database_, events);
    Statement insert = database_.prepare(
        "INSERT OR REPLACE INTO advice(site, target, date, season_start, action, kind, best_first, "
        "best_last) "
        "VALUES (?,?,?,?,?,?,?,?)");
    for (const StoredAdvice& answer : answers) {
      insert
          .bind({answer.site, answer.target, iso(answer.on), iso(answer.season_start), answer.action,
                 answer.kind.empty() ? SqlValue{} : SqlValue{answer.kind}, day_or_null(answer.best_first),
                 day_or_null(answer.best_last)})
          .run();
    }
    transaction.commit();
  });
}

Result<std::optional<StoredAdvice>> AdviceStore::latest_before(const std::string& site,
                                                               const std::string& target, Day day) {
  return guarded([&]() -> std::optional<StoredAdvice> {
    Statement row = database_.prepare(
        "SELECT date, season_start, action, kind, best_first, best_last FROM advice "
        "WHERE site = ? AND target = ? AND date < ? ORDER BY date DESC LIMIT 1");
    row.bind({site, target, iso(day)});
    if (!row.step()) return std::nullopt;
    const std::string& path = database_.path();
    return StoredAdvice{site,
                        target,
                        day_of(row, 0, path),
                        day_of(row, 1, path),
                        row.text(2),
                        row.is_null(3) ? "" : row.text(3),
                        day_where_known(row, 4, path),
                        day_where_known(row, 5, path)};
  });
}

Result<std::vector<StoredEvent>> AdviceStore::announced(const std::string& site, const std::string& target,
                                                        Day season_start) {
  return guarded([&] {
    Statement row = database_.prepare(
        "SELECT event, first, after FROM announced WHERE site = ? AND target = ? AND season_start = ? "
        "ORDER BY event");
    row.bind({site, target, iso(season_start)});
    std::vector<StoredEvent> events;
    while (row.step()) {
      const std::string& path = database_.path();
      events.push_back(
          {site, target, season_start, row.text(0), {day_of(row, 1, path), day_of(row, 2, path)}});
    }
    return events;
  });
}

}  // namespace soilclock::records
