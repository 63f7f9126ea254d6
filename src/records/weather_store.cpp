// SPDX-License-Identifier: MIT
#include "records/weather_store.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "records/stored_values.hpp"

namespace soilclock::records {

namespace {

double four_decimals(double degrees) { return std::round(degrees * 1e4) / 1e4; }

/// The days an answer speaks of or was asked for.
DayRange days_of(const weather::DailyWeather& weather, DayRange asked) {
  DayRange given = weather::covered(weather);
  if (given.empty()) return asked;
  if (asked.empty()) return given;
  return {std::min(given.begin(), asked.begin()), std::max(given.end(), asked.end())};
}

std::string meters(const std::optional<double>& elevation_m) {
  return elevation_m ? number_text(*elevation_m, 0) : "";
}

/// The columns a series is kept apart by, as they stand in the table.
constexpr const char* key_columns =
    "site, service, part, station, latitude, longitude, elevation, clock, cut";
std::vector<SqlValue> key_values(const SeriesKey& key) {
  return {key.site,
          key.service,
          std::string{name(key.part)},
          key.station,
          four_decimals(key.place.latitude_deg),
          four_decimals(key.place.longitude_deg),
          meters(key.place.elevation_m),
          key.clock,
          key.cut};
}

GivenDay given_on(const weather::DailyWeather& weather, Day day) {
  return {day, weather.air_min.at(day), weather.air_max.at(day), weather.rain.at(day)};
}

}  // namespace

std::string_view name(WeatherPart part) {
  if (part == WeatherPart::history) return "history";
  return part == WeatherPart::forecast ? "forecast" : "members";
}

std::optional<std::int64_t> WeatherStore::find(const SeriesKey& key) {
  Statement found = database_.prepare(
      fmt::format("SELECT id FROM weather_series WHERE ({}) = (?,?,?,?,?,?,?,?,?)", key_columns));
  found.bind(key_values(key));
  return found.step() ? std::optional{found.integer(0)} : std::nullopt;
}

std::int64_t WeatherStore::find_or_add(const SeriesKey& key, const SeriesFacts& facts) {
  auto id = find(key);
  if (!id) {
    database_
        .prepare(fmt::format(
            "INSERT INTO weather_series({}, model, day_definition) VALUES (?,?,?,?,?,?,?,?,?,'','')",
            key_columns))
        .bind(key_values(key))
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

std::vector<StoredDay> WeatherStore::select_days(std::int64_t series, int member) {
  Statement rows = database_.prepare(
      "SELECT d.date, d.minimum_c, d.maximum_c, d.rain_mm, k.given_at, a.given_at FROM weather_day d "
      "JOIN weather_answer k ON k.id = d.known_from JOIN weather_answer a ON a.id = d.asked_in "
      "WHERE d.series = ? AND d.member = ? ORDER BY d.date");
  rows.bind({series, std::int64_t{member}});
  std::vector<StoredDay> days;
  while (rows.step()) {
    days.push_back({day_of(rows, 0, database_.path()), value_of(rows, 1, &Temperature::from_celsius),
                    value_of(rows, 2, &Temperature::from_celsius), value_of(rows, 3, &Rain::from_mm),
                    instant_of(rows, 4, database_.path()), instant_of(rows, 5, database_.path())});
  }
  return days;
}

std::vector<std::string> WeatherStore::select_doubts(std::int64_t series) {
  Statement rows = database_.prepare(
      "SELECT text FROM weather_doubt WHERE answer IN (SELECT known_from FROM weather_day WHERE series = ?) "
      "GROUP BY text ORDER BY min(answer)");
  rows.bind({series});
  std::vector<std::string> doubts;
  while (rows.step()) doubts.push_back(rows.text(0));
  return doubts;
}

void WeatherStore::write_days(const Answer& answer, int member, StoringResult& result) {
  const weather::DailyWeather& given = answer.fetched.members[static_cast<std::size_t>(member)];
  std::map<Day, StoredDay> stored;
  for (const StoredDay& day : select_days(answer.series, member)) stored.emplace(day.day, day);
  // 0 stands for "as before".
  Statement write = database_.prepare(
      "INSERT INTO weather_day(series, member, date, minimum_c, maximum_c, rain_mm, known_from, asked_in) "
      "VALUES (?,?,?,?,?,?,?,?) ON CONFLICT(series, member, date) DO UPDATE SET minimum_c = "
      "excluded.minimum_c, maximum_c = excluded.maximum_c, rain_mm = excluded.rain_mm, known_from = CASE "
      "WHEN excluded.known_from = 0 THEN known_from ELSE excluded.known_from END, asked_in = CASE WHEN "
      "excluded.asked_in = 0 THEN asked_in ELSE excluded.asked_in END");
  const DayRange days = days_of(given, answer.fetched.asked);
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    const auto found = stored.find(day);
    const auto before = found == stored.end() ? std::nullopt : std::optional{found->second};
    const MergedDay now = merged(before, given_on(given, day), answer.fetched.at);
    const bool asked_last = now.day.asked == answer.fetched.at;
    write
        .bind({answer.series, std::int64_t{member}, soilclock::iso(day),
               sql_or_null(now.day.minimum, &Temperature::celsius),
               sql_or_null(now.day.maximum, &Temperature::celsius), sql_or_null(now.day.rain, &Rain::mm),
               now.renewed ? answer.id : std::int64_t{0}, asked_last ? answer.id : std::int64_t{0}})
        .run();
    if (member > 0) continue;
    const bool known_before = before && before->minimum && before->maximum;
    result.new_days += now.day.minimum && now.day.maximum && !known_before ? 1 : 0;
    result.changed_days += known_before && now.changed ? 1 : 0;
    result.spared_days += now.spared ? 1 : 0;
  }
}

/// Member 7 of one ensemble is not member 7 of the next: nothing of the older one is mixed in.
void WeatherStore::replace_members(const Answer& answer, StoringResult& result) {
  if (!answer.latest) return;
  const auto known = [](const StoredDay& day) { return day.minimum && day.maximum; };
  std::set<Day> before;
  for (const StoredDay& day : select_days(answer.series, 0)) {
    if (known(day)) before.insert(day.day);
  }
  database_.prepare("DELETE FROM weather_day WHERE series = ?").bind({answer.series}).run();
  for (std::size_t member = 0; member < answer.fetched.members.size(); ++member)
    write_days(answer, static_cast<int>(member), result);
  const auto now = select_days(answer.series, 0);
  result.new_days = static_cast<int>(std::count_if(
      now.begin(), now.end(), [&](const StoredDay& day) { return known(day) && !before.contains(day.day); }));
}

void WeatherStore::write_hours(const Answer& answer) {
  if (answer.fetched.hours.empty() || !answer.latest) return;
  database_.prepare("DELETE FROM weather_hour WHERE series = ?").bind({answer.series}).run();
  Statement hour = database_.prepare(
      "INSERT INTO weather_hour(series, date, minute, air_c, humidity_percent, wind_m_per_s, rain_mm) "
      "VALUES (?,?,?,?,?,?,?) ON CONFLICT DO NOTHING");
  for (const weather::HourlyObservation& reading : answer.fetched.hours) {
    hour.bind({answer.series, soilclock::iso(reading.day), std::int64_t{reading.minute_of_day},
               sql_or_null(reading.air, &Temperature::celsius), sql_or_null(reading.humidity_percent),
               sql_or_null(reading.wind_m_per_s), sql_or_null(reading.rain, &Rain::mm)})
        .run();
  }
}

StoringResult WeatherStore::store_one(const AnswerToStore& storing) {
  const FetchedWeather& fetched = storing.fetched;
  const std::int64_t series = find_or_add(storing.key, fetched.facts);
  Statement later = database_.prepare("SELECT 1 FROM weather_answer WHERE series = ? AND given_at > ?");
  const bool latest = !later.bind({series, iso(fetched.at)}).step();
  database_.prepare("INSERT INTO weather_answer(series, given_at, origin) VALUES (?,?,?)")
      .bind({series, iso(fetched.at), fetched.origin})
      .run();
  const Answer answer{fetched, series, database_.last_id(), latest};
  Statement doubt = database_.prepare("INSERT OR IGNORE INTO weather_doubt(answer, text) VALUES (?,?)");
  for (const std::string& text : fetched.doubts) doubt.bind({answer.id, text}).run();
  StoringResult result;
  if (storing.key.part == WeatherPart::members)
    replace_members(answer, result);
  else
    write_days(answer, 0, result);
  write_hours(answer);
  return result;
}

Result<std::vector<StoringResult>> WeatherStore::put(const std::vector<AnswerToStore>& answer) {
  return guarded([&] {
    Transaction transaction{database_, true};
    std::vector<StoringResult> results;
    results.reserve(answer.size());
    for (const AnswerToStore& storing : answer) results.push_back(store_one(storing));
    transaction.commit();
    return results;
  });
}

Result<std::optional<StoredWeather>> WeatherStore::read(const SeriesKey& key) {
  return guarded([&]() -> std::optional<StoredWeather> {
    const Transaction transaction{database_, false};  // one state of the file, whoever else writes
    const auto series = find(key);
    if (!series) return std::nullopt;
    StoredWeather stored;
    Statement facts = database_.prepare(
        "SELECT s.model, s.day_definition, s.cell_latitude, s.cell_longitude, s.cell_elevation_m, a.origin, "
        "a.given_at, (SELECT max(member) FROM weather_day WHERE series = s.id) FROM weather_series s JOIN "
        "weather_answer a ON a.series = s.id WHERE s.id = ? ORDER BY a.given_at DESC, a.id DESC LIMIT 1");
    facts.bind({*series});
    if (!facts.step()) return std::nullopt;
    stored.facts = {{}, facts.text(0), facts.text(1)};
    if (const auto latitude = number_of(facts, 2))
      stored.facts.cell = Place{*latitude, number_of(facts, 3).value_or(0.0), number_of(facts, 4)};
    stored.origin = facts.text(5);
    stored.last_answer = instant_of(facts, 6, database_.path());
    stored.doubts = select_doubts(*series);
    for (std::int64_t member = 0; member <= facts.integer(7); ++member)
      stored.members.push_back(select_days(*series, static_cast<int>(member)));
    Statement hours = database_.prepare(
        "SELECT date, minute, air_c, humidity_percent, wind_m_per_s, rain_mm FROM weather_hour WHERE series "
        "= ? "
        "ORDER BY date, minute");
    hours.bind({*series});
    while (hours.step()) {
      stored.hours.push_back({day_of(hours, 0, database_.path()), static_cast<int>(hours.integer(1)),
                              value_of(hours, 2, &Temperature::from_celsius), number_of(hours, 3),
                              number_of(hours, 4), value_of(hours, 5, &Rain::from_mm)});
    }
    return stored;
  });
}

Result<std::vector<StoredDay>> WeatherStore::days(const SeriesKey& key) {
  return guarded([&] {
    const auto series = find(key);
    return series ? select_days(*series, 0) : std::vector<StoredDay>{};
  });
}

Result<std::vector<SeriesKey>> WeatherStore::others(const SeriesKey& key) {
  return guarded([&] {
    Statement rows = database_.prepare(fmt::format(
        "SELECT station, latitude, longitude, elevation, clock, cut FROM weather_series WHERE site "
        "= ?1 AND service = ?2 AND part = ?3 AND ({}) <> (?1,?2,?3,?4,?5,?6,?7,?8,?9) ORDER BY id",
        key_columns));
    rows.bind(key_values(key));
    std::vector<SeriesKey> keys;
    while (rows.step()) {
      const Place place{number_of(rows, 1).value_or(0.0), number_of(rows, 2).value_or(0.0),
                        parse_number(rows.text(3))};
      keys.push_back({key.site, key.service, key.part, rows.text(0), place, rows.text(4), rows.text(5)});
    }
    return keys;
  });
}

Result<std::vector<std::string>> WeatherStore::sites_in_cell(const SeriesKey& key, const Place& cell) {
  return guarded([&] {
    Statement rows = database_.prepare(
        "SELECT DISTINCT site FROM weather_series WHERE service = ? AND part = ? AND cell_latitude = ? AND "
        "cell_longitude = ? AND site <> ? AND (latitude, longitude) <> (?,?) ORDER BY site");
    rows.bind({key.service, std::string{name(key.part)}, cell.latitude_deg, cell.longitude_deg, key.site,
               four_decimals(key.place.latitude_deg), four_decimals(key.place.longitude_deg)});
    std::vector<std::string> sites;
    while (rows.step()) sites.push_back(rows.text(0));
    return sites;
  });
}

}  // namespace soilclock::records
