// SPDX-License-Identifier: MIT
#include "records/weather_store.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "records/codec.hpp"

namespace soilclock::records {

namespace {

template <class Value>
SqlValue sql_or_null(const std::optional<Value>& value, double (Value::*number)() const) {
  return value ? SqlValue{((*value).*number)()} : SqlValue{};
}

SqlValue sql_or_null(const std::optional<double>& value) { return value ? SqlValue{*value} : SqlValue{}; }

std::optional<double> number(const Statement& row, int column) {
  const SqlValue value = row.value(column);
  if (const auto* real = std::get_if<double>(&value)) return *real;
  if (const auto* whole = std::get_if<std::int64_t>(&value)) return static_cast<double>(*whole);
  return std::nullopt;
}

template <class Value>
std::optional<Value> value_of(const Statement& row, int column, Value (*make)(double)) {
  const auto read = number(row, column);
  return read ? std::optional{make(*read)} : std::nullopt;
}

[[noreturn]] void refuse_content(const std::string& path) {
  throw StorageProblem{{Family::data,
                        "the weather kept in the records file cannot be read",
                        {path, {}, {}, {}},
                        {},
                        {},
                        "the file was changed by something else; put a copy of it back in its place"}};
}

Instant instant_of(const Statement& row, int column, const std::string& path) {
  const auto at = parse_iso_instant(row.text(column));
  if (!at) refuse_content(path);
  return *at;
}

Day day_of(const Statement& row, int column, const std::string& path) {
  const auto day = parse_iso_day(row.text(column));
  if (!day) refuse_content(path);
  return *day;
}

double four_decimals(double degrees) { return std::round(degrees * 1e4) / 1e4; }

/// The days an answer speaks of or was asked for.
DayRange days_of(const weather::DailyWeather& weather, DayRange asked) {
  DayRange given = weather::covered(weather);
  if (given.empty()) return asked;
  if (asked.empty()) return given;
  return {std::min(given.begin(), asked.begin()), std::max(given.end(), asked.end())};
}

/// What keeping one day did. An unknown value leaves a known one in its place.
struct DayUpdate {
  KeptDay day;
  bool as_before = false;  ///< nothing of it comes from the answer
  bool known_before = false;
  bool changed = false;
  bool spared = false;
};

template <class Value>
void update(std::optional<Value>& kept, const std::optional<Value>& given, DayUpdate& result) {
  if (!given) {
    result.spared = result.spared || kept.has_value();
    return;
  }
  // Kept numbers come back as they were written, so any difference is one of the service's.
  result.changed = result.changed || (kept && !(*kept == *given));
  kept = given;
}

DayUpdate updated(const KeptDay* before, const weather::DailyWeather& given, Day day, Instant at) {
  DayUpdate result;
  if (before != nullptr) result.day = *before;
  result.day.day = day;
  result.known_before = before != nullptr && before->minimum && before->maximum;
  const auto minimum = given.air_min.at(day);
  const auto maximum = given.air_max.at(day);
  const auto rain = given.rain.at(day);
  update(result.day.minimum, minimum, result);
  update(result.day.maximum, maximum, result);
  update(result.day.rain, rain, result);
  result.day.asked = at;
  result.as_before = before != nullptr && !minimum && !maximum && !rain;
  if (!result.as_before) result.day.known_since = at;
  return result;
}

}  // namespace

std::string_view name(WeatherPart part) {
  if (part == WeatherPart::history) return "history";
  return part == WeatherPart::forecast ? "forecast" : "members";
}

std::optional<std::int64_t> WeatherStore::find(const SeriesKey& key) {
  Statement found = database_.prepare(
      "SELECT id FROM weather_series WHERE site = ? AND service = ? AND part = ? AND station = ? AND "
      "latitude = ? AND longitude = ? AND clock = ?");
  found.bind({key.site, key.service, std::string{name(key.part)}, key.station,
              four_decimals(key.place.latitude_deg), four_decimals(key.place.longitude_deg), key.clock});
  return found.step() ? std::optional{found.integer(0)} : std::nullopt;
}

std::int64_t WeatherStore::find_or_add(const SeriesKey& key, const SeriesFacts& facts) {
  auto id = find(key);
  if (!id) {
    database_
        .prepare(
            "INSERT INTO weather_series(site, service, part, station, latitude, longitude, clock, model, "
            "day_definition) VALUES (?,?,?,?,?,?,?,'','')")
        .bind({key.site, key.service, std::string{name(key.part)}, key.station,
               four_decimals(key.place.latitude_deg), four_decimals(key.place.longitude_deg), key.clock})
        .run();
    id = database_.last_id();
  }
  const std::optional<double> latitude = facts.cell ? std::optional{facts.cell->latitude_deg} : std::nullopt;
  const std::optional<double> longitude =
      facts.cell ? std::optional{facts.cell->longitude_deg} : std::nullopt;
  database_
      .prepare(
          "UPDATE weather_series SET model = ?, day_definition = ?, cell_latitude = ?, cell_longitude = ?, "
          "cell_elevation_m = ? WHERE id = ?")
      .bind({facts.model, facts.day_definition, sql_or_null(latitude), sql_or_null(longitude),
             sql_or_null(facts.cell ? facts.cell->elevation_m : std::nullopt), *id})
      .run();
  return *id;
}

std::vector<KeptDay> WeatherStore::select_days(std::int64_t series, int member) {
  Statement rows = database_.prepare(
      "SELECT d.date, d.minimum_c, d.maximum_c, d.rain_mm, k.given_at, a.given_at FROM weather_day d "
      "JOIN weather_answer k ON k.id = d.known_from JOIN weather_answer a ON a.id = d.asked_in "
      "WHERE d.series = ? AND d.member = ? ORDER BY d.date");
  rows.bind({series, std::int64_t{member}});
  std::vector<KeptDay> days;
  while (rows.step()) {
    days.push_back({day_of(rows, 0, database_.path()), value_of(rows, 1, &Temperature::from_celsius),
                    value_of(rows, 2, &Temperature::from_celsius), value_of(rows, 3, &Rain::from_mm),
                    instant_of(rows, 4, database_.path()), instant_of(rows, 5, database_.path())});
  }
  return days;
}

void WeatherStore::write_days(const Answer& answer, int member, KeepingResult& result) {
  const weather::DailyWeather& given = answer.fetched.members[static_cast<std::size_t>(member)];
  std::map<Day, KeptDay> before;
  for (const KeptDay& day : select_days(answer.series, member)) before.emplace(day.day, day);
  // Known_from 0 stands for "as before".
  Statement write = database_.prepare(
      "INSERT INTO weather_day(series, member, date, minimum_c, maximum_c, rain_mm, known_from, asked_in) "
      "VALUES (?,?,?,?,?,?,?,?) ON CONFLICT(series, member, date) DO UPDATE SET minimum_c = "
      "excluded.minimum_c, maximum_c = excluded.maximum_c, rain_mm = excluded.rain_mm, known_from = CASE "
      "WHEN excluded.known_from = 0 THEN known_from ELSE excluded.known_from END, asked_in = "
      "excluded.asked_in");
  const DayRange days = days_of(given, answer.fetched.asked);
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    const auto kept = before.find(day);
    const DayUpdate now =
        updated(kept == before.end() ? nullptr : &kept->second, given, day, answer.fetched.at);
    const KeptDay& to_keep = now.day;
    write
        .bind({answer.series, std::int64_t{member}, soilclock::iso(day),
               sql_or_null(to_keep.minimum, &Temperature::celsius),
               sql_or_null(to_keep.maximum, &Temperature::celsius), sql_or_null(to_keep.rain, &Rain::mm),
               now.as_before ? std::int64_t{0} : answer.id, answer.id})
        .run();
    if (member > 0) continue;
    const bool known = to_keep.minimum && to_keep.maximum;
    result.new_days += known && !now.known_before ? 1 : 0;
    result.changed_days += now.known_before && now.changed ? 1 : 0;
    result.spared_days += now.spared ? 1 : 0;
  }
}

void WeatherStore::write_hours(const Answer& answer) {
  if (answer.fetched.hours.empty()) return;
  database_.prepare("DELETE FROM weather_hour WHERE series = ?").bind({answer.series}).run();
  Statement hour = database_.prepare(
      "INSERT INTO weather_hour(series, date, minute, air_c, humidity_percent, wind_m_per_s, rain_mm) "
      "VALUES (?,?,?,?,?,?,?) ON CONFLICT DO NOTHING");
  for (const weather::HourReading& reading : answer.fetched.hours) {
    hour.bind({answer.series, soilclock::iso(reading.day), std::int64_t{reading.minute_of_day},
               sql_or_null(reading.air, &Temperature::celsius), sql_or_null(reading.humidity_percent),
               sql_or_null(reading.wind_m_per_s), sql_or_null(reading.rain, &Rain::mm)})
        .run();
  }
}

Result<KeepingResult> WeatherStore::keep(const SeriesKey& key, const FetchedWeather& fetched) {
  return guarded([&] {
    Transaction transaction{database_, true};
    const std::int64_t series = find_or_add(key, fetched.facts);
    database_.prepare("INSERT INTO weather_answer(series, given_at, origin, weight) VALUES (?,?,?,?)")
        .bind({series, iso(fetched.at), fetched.origin, fetched.weight})
        .run();
    const Answer answer{fetched, series, database_.last_id()};
    KeepingResult result;
    for (std::size_t member = 0; member < fetched.members.size(); ++member)
      write_days(answer, static_cast<int>(member), result);
    write_hours(answer);
    transaction.commit();
    return result;
  });
}

Result<std::optional<KeptWeather>> WeatherStore::read(const SeriesKey& key) {
  return guarded([&]() -> std::optional<KeptWeather> {
    const Transaction transaction{database_, false};  // one state of the file, whoever else writes
    const auto series = find(key);
    if (!series) return std::nullopt;
    KeptWeather kept;
    Statement facts = database_.prepare(
        "SELECT s.model, s.day_definition, s.cell_latitude, s.cell_longitude, s.cell_elevation_m, a.origin, "
        "a.given_at, (SELECT max(member) FROM weather_day WHERE series = s.id) FROM weather_series s JOIN "
        "weather_answer a ON a.series = s.id WHERE s.id = ? ORDER BY a.given_at DESC, a.id DESC LIMIT 1");
    facts.bind({*series});
    if (!facts.step()) return std::nullopt;
    kept.facts = {{}, facts.text(0), facts.text(1)};
    if (const auto latitude = number(facts, 2))
      kept.facts.cell = Place{*latitude, number(facts, 3).value_or(0.0), number(facts, 4)};
    kept.origin = facts.text(5);
    kept.last_answer = instant_of(facts, 6, database_.path());
    for (std::int64_t member = 0; member <= facts.integer(7); ++member)
      kept.members.push_back(select_days(*series, static_cast<int>(member)));
    Statement hours = database_.prepare(
        "SELECT date, minute, air_c, humidity_percent, wind_m_per_s, rain_mm FROM weather_hour WHERE series "
        "= ? "
        "ORDER BY date, minute");
    hours.bind({*series});
    while (hours.step()) {
      kept.hours.push_back({day_of(hours, 0, database_.path()), static_cast<int>(hours.integer(1)),
                            value_of(hours, 2, &Temperature::from_celsius), number(hours, 3),
                            number(hours, 4), value_of(hours, 5, &Rain::from_mm)});
    }
    return kept;
  });
}

Result<std::vector<KeptDay>> WeatherStore::days(const SeriesKey& key) {
  return guarded([&] {
    const auto series = find(key);
    return series ? select_days(*series, 0) : std::vector<KeptDay>{};
  });
}

Result<std::vector<SeriesKey>> WeatherStore::others(const SeriesKey& key) {
  return guarded([&] {
    Statement rows = database_.prepare(
        "SELECT station, latitude, longitude, clock FROM weather_series WHERE site = ? AND service = ? AND "
        "part "
        "= ? AND (station, latitude, longitude, clock) <> (?,?,?,?) ORDER BY id");
    rows.bind({key.site, key.service, std::string{name(key.part)}, key.station,
               four_decimals(key.place.latitude_deg), four_decimals(key.place.longitude_deg), key.clock});
    std::vector<SeriesKey> keys;
    while (rows.step()) {
      const Place place{number(rows, 1).value_or(0.0), number(rows, 2).value_or(0.0), std::nullopt};
      keys.push_back({key.site, key.service, key.part, rows.text(0), place, rows.text(3)});
    }
    return keys;
  });
}

Result<std::vector<std::string>> WeatherStore::sites_in_cell(const SeriesKey& key, const Place& cell) {
  return guarded([&] {
    Statement rows = database_.prepare(
        "SELECT DISTINCT site FROM weather_series WHERE service = ? AND part = ? AND cell_latitude = ? AND "
        "cell_longitude = ? AND site <> ? ORDER BY site");
    rows.bind({key.service, std::string{name(key.part)}, cell.latitude_deg, cell.longitude_deg, key.site});
    std::vector<std::string> sites;
    while (rows.step()) sites.push_back(rows.text(0));
    return sites;
  });
}

Result<std::vector<CountedCall>> WeatherStore::calls(const std::string& service, Instant since) {
  return guarded([&] {
    Statement rows = database_.prepare(
        "SELECT a.given_at, a.weight FROM weather_answer a JOIN weather_series s ON s.id = a.series WHERE "
        "s.service = ? AND a.given_at >= ? ORDER BY a.given_at");
    rows.bind({service, iso(since)});
    std::vector<CountedCall> calls;
    while (rows.step())
      calls.push_back({instant_of(rows, 0, database_.path()), number(rows, 1).value_or(0.0)});
    return calls;
  });
}

}  // namespace soilclock::records
