// SPDX-License-Identifier: MIT
#include "records/weather_store.hpp"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>

#include "records/schema.hpp"
#include "records/service_calls.hpp"
#include "support/temporary_folder.hpp"

using namespace soilclock;
using namespace soilclock::records;

namespace {

const Day first = make_day(2026, 11, 1);

SeriesKey key(const std::string& site = "heron", double longitude = -83.1) {
  return {site,
          "open-meteo",
          WeatherPart::history,
          "",
          {35.6, longitude, {}},
          "America/New_York",
          "local standard time"};
}

Instant hour(int hours) { return Instant{make_day(2026, 11, 20)} + std::chrono::hours{hours}; }

void set(weather::DailyWeather& daily, int day, double low, double high, double rain) {
  daily.air_min.set(first + Days{day}, Temperature::from_celsius(low), Quality::modelled);
  daily.air_max.set(first + Days{day}, Temperature::from_celsius(high), Quality::modelled);
  daily.rain.set(first + Days{day}, Rain::from_mm(rain), Quality::modelled);
}

/// Days from `begin` on, all different.
FetchedWeather answer(int at_hour, int begin, int end) {
  FetchedWeather fetched;
  fetched.facts = {Place{35.59, -83.13, 320.0}, "best", "local standard time"};
  fetched.at = hour(at_hour);
  fetched.origin = "archive.example";
  fetched.asked = {first + Days{begin}, first + Days{end}};
  fetched.members.emplace_back();
  for (int day = begin; day < end; ++day) set(fetched.members[0], day, 5.1 + day, 15.3 + day, 0.1 * day);
  return fetched;
}

struct Kept {
  TemporaryFolder folder;
  Store store = Store::open(folder.file("records.db"), Access::create).value();
  WeatherStore weather{store};

  Result<StoringResult> keep(const SeriesKey& of, const FetchedWeather& fetched) {
    return weather.put({{of, fetched}}).map([](const auto& results) { return results.front(); });
  }

  StoredWeather all(const SeriesKey& of = key()) {
    auto read = weather.read(of);
    REQUIRE(read);
    REQUIRE(*read);
    return **read;
  }
};

}  // namespace

TEST_CASE("what was fetched comes back to the last bit, with where and when it was given") {
  Kept stored;
  FetchedWeather fetched = answer(6, 0, 3);
  fetched.hours.push_back({first, 180, Temperature::from_celsius(7.3), 81.5, 2.25, Rain::from_mm(0.2)});
  fetched.hours.push_back({first, 240, {}, {}, {}, {}});
  REQUIRE(stored.keep(key(), fetched));
  Store again = Store::open(stored.folder.file("records.db"), Access::existing).value();
  WeatherStore weather{again};
  const auto read = weather.read(key());
  REQUIRE(read);
  REQUIRE(*read);
  const StoredWeather& back = **read;
  CHECK(back.facts.model == "best");
  CHECK(back.facts.day_definition == "local standard time");
  CHECK(back.facts.cell->longitude_deg == -83.13);
  CHECK(back.facts.cell->elevation_m == 320.0);
  CHECK(back.origin == "archive.example");
  CHECK(back.last_answer == hour(6));
  REQUIRE(back.members.size() == 1);
  REQUIRE(back.members[0].size() == 3);
  CHECK(back.members[0][2].day == first + Days{2});
  CHECK(back.members[0][2].minimum->celsius() == 5.1 + 2);
  CHECK(back.members[0][2].rain->mm() == 0.1 * 2);
  CHECK(back.members[0][2].known_since == hour(6));
  REQUIRE(back.hours.size() == 2);
  CHECK(back.hours[0].air->celsius() == 7.3);
  CHECK(back.hours[0].humidity_percent == 81.5);
  CHECK(back.hours[0].wind_m_per_s == 2.25);
  CHECK(!back.hours[1].air);
}

TEST_CASE("an answer that has lost days leaves what was known, and says so") {
  Kept stored;
  REQUIRE(stored.keep(key(), answer(1, 0, 5)));
  FetchedWeather poorer = answer(30, 0, 5);
  poorer.members[0] = {};
  set(poorer.members[0], 1, 6.1, 16.3, 0.1);  // as before
  poorer.members[0].air_min.set(first + Days{2}, Temperature::from_celsius(0.0), Quality::modelled);
  const auto result = stored.keep(key(), poorer);
  REQUIRE(result);
  CHECK(result->new_days == 0);
  CHECK(result->spared_days == 4);
  CHECK(result->changed_days == 1);
  const auto days = stored.all().members[0];
  CHECK(days[0].minimum->celsius() == 5.1);
  CHECK(days[0].known_since == hour(1));
  CHECK(days[0].asked == hour(30));
  CHECK(days[1].known_since == hour(30));
  CHECK(days[2].minimum->celsius() == 0.0);
  CHECK(days[2].maximum->celsius() == 15.3 + 2);
}

TEST_CASE("a provisional day is replaced by its later value") {
  Kept stored;
  REQUIRE(stored.keep(key(), answer(1, 0, 2)));
  FetchedWeather later = answer(25, 1, 2);
  set(later.members[0], 1, 4.0, 14.0, 3.0);
  CHECK(stored.keep(key(), later)->changed_days == 1);
  CHECK(stored.all().members[0][1].maximum->celsius() == 14.0);
  CHECK(stored.all().members[0][0].maximum->celsius() == 15.3);
}

TEST_CASE("days asked for in vain are remembered as such") {
  Kept stored;
  FetchedWeather holed = answer(1, 0, 4);
  holed.members[0].air_min.clear(first + Days{2});
  holed.members[0].air_max.clear(first + Days{2});
  holed.members[0].rain.clear(first + Days{2});
  CHECK(stored.keep(key(), holed)->new_days == 3);
  const auto days = stored.weather.days(key()).value();
  REQUIRE(days.size() == 4);
  CHECK(!days[2].minimum);
  CHECK(days[2].asked == hour(1));
  CHECK(stored.keep(key(), answer(9, 2, 3))->new_days == 1);
  CHECK(stored.weather.days(key()).value()[2].minimum);
}

TEST_CASE("members of an ensemble are kept apart") {
  Kept stored;
  SeriesKey ensemble = key();
  ensemble.part = WeatherPart::members;
  FetchedWeather fetched = answer(1, 0, 2);
  fetched.members.push_back(answer(1, 0, 2).members[0]);
  set(fetched.members[1], 1, -3.0, 4.0, 9.0);
  REQUIRE(stored.keep(ensemble, fetched));
  const StoredWeather back = stored.all(ensemble);
  REQUIRE(back.members.size() == 2);
  CHECK(back.members[0][1].minimum->celsius() == 6.1);
  CHECK(back.members[1][1].minimum->celsius() == -3.0);
  CHECK(!stored.weather.read(key()).value());
}

TEST_CASE("a site that has moved or changed its clock begins anew, and what was before is told") {
  Kept stored;
  REQUIRE(stored.keep(key(), answer(1, 0, 2)));
  const SeriesKey moved = key("heron", 83.1);
  CHECK(!stored.weather.read(moved).value());
  const auto others = stored.weather.others(moved).value();
  REQUIRE(others.size() == 1);
  CHECK(others[0].place.longitude_deg == -83.1);
  CHECK(others[0].clock == "America/New_York");
  CHECK(stored.weather.others(key()).value().empty());
  SeriesKey other_clock = key();
  other_clock.clock = "UTC-06:00";
  CHECK(!stored.weather.read(other_clock).value());
  CHECK(stored.weather.others(other_clock).value().size() == 1);
  CHECK(stored.weather.read(key("heron", -83.100004)).value());  // less than ten meters
}

TEST_CASE("two sites in one grid cell are found") {
  Kept stored;
  REQUIRE(stored.keep(key("heron"), answer(1, 0, 2)));
  REQUIRE(stored.keep(key("bell", -83.14), answer(1, 0, 2)));
  FetchedWeather elsewhere = answer(1, 0, 2);
  elsewhere.facts.cell = Place{36.0, -83.13, 320.0};
  REQUIRE(stored.keep(key("nine", -83.2), elsewhere));
  CHECK(stored.weather.sites_in_cell(key("heron"), {35.59, -83.13, {}}).value() ==
        std::vector<std::string>{"bell"});
}

TEST_CASE("an answer given before what is kept fills holes and changes nothing") {
  Kept stored;
  FetchedWeather holed = answer(30, 0, 3);
  holed.members[0].air_min.clear(first + Days{2});
  holed.members[0].air_max.clear(first + Days{2});
  holed.hours.push_back({first, 180, Temperature::from_celsius(7.0), {}, {}, {}});
  REQUIRE(stored.keep(key(), holed));
  FetchedWeather older = answer(1, 0, 3);
  for (int day = 0; day < 3; ++day) set(older.members[0], day, -4.0, 3.0, 8.0);
  older.hours.push_back({first, 180, Temperature::from_celsius(-1.0), {}, {}, {}});
  const auto result = stored.keep(key(), older);
  REQUIRE(result);
  CHECK(result->changed_days == 0);
  CHECK(result->spared_days == 0);
  CHECK(result->new_days == 1);
  const StoredWeather back = stored.all();
  CHECK(back.members[0][0].maximum->celsius() == 15.3);
  CHECK(back.members[0][0].known_since == hour(30));
  CHECK(back.members[0][0].asked == hour(30));
  CHECK(back.members[0][2].maximum->celsius() == 3.0);
  CHECK(back.members[0][2].known_since == hour(1));
  CHECK(back.hours.at(0).air->celsius() == 7.0);
  CHECK(back.last_answer == hour(30));
}

TEST_CASE("rain alone does not make a forecast of temperatures a thing of the past") {
  Kept stored;
  REQUIRE(stored.keep(key(), answer(1, 0, 2)));
  FetchedWeather rain = answer(60, 0, 2);
  for (int day = 0; day < 2; ++day) {
    rain.members[0].air_min.clear(first + Days{day});
    rain.members[0].air_max.clear(first + Days{day});
  }
  REQUIRE(stored.keep(key(), rain));
  CHECK(stored.all().members[0][1].known_since == hour(1));
  CHECK(stored.all().members[0][1].asked == hour(60));
}

TEST_CASE("a minimum of one answer never lies above the maximum of another") {
  Kept stored;
  REQUIRE(stored.keep(key(), answer(1, 0, 1)));
  FetchedWeather half = answer(9, 0, 1);
  half.members[0].air_min.set(first, Temperature::from_celsius(20.0), Quality::modelled);
  half.members[0].air_max.clear(first);
  CHECK(stored.keep(key(), half)->spared_days == 1);
  CHECK(stored.all().members[0][0].minimum->celsius() == 5.1);
  CHECK(stored.all().members[0][0].maximum->celsius() == 15.3);
}

TEST_CASE("a newer ensemble takes the place of the older one with all its members") {
  Kept stored;
  SeriesKey ensemble = key();
  ensemble.part = WeatherPart::members;
  FetchedWeather many = answer(1, 0, 4);
  for (int member = 1; member < 5; ++member) many.members.push_back(many.members[0]);
  REQUIRE(stored.keep(ensemble, many));
  FetchedWeather few = answer(9, 1, 3);
  for (int member = 1; member < 3; ++member) few.members.push_back(few.members[0]);
  CHECK(stored.keep(ensemble, few)->new_days == 0);
  CHECK(stored.all(ensemble).members.size() == 3);
  CHECK(stored.all(ensemble).members[2].size() == 2);
  REQUIRE(stored.keep(ensemble, many));  // given before: as if it had not come
  CHECK(stored.all(ensemble).members.size() == 3);
}

TEST_CASE("another height or another cut of the days is another series") {
  Kept stored;
  SeriesKey low = key();
  low.place.elevation_m = 310.2;
  REQUIRE(stored.keep(low, answer(1, 0, 2)));
  SeriesKey same = low;
  same.place.elevation_m = 309.8;
  CHECK(stored.weather.read(same).value());
  SeriesKey high = low;
  high.place.elevation_m = 810.0;
  CHECK(!stored.weather.read(high).value());
  CHECK(stored.weather.others(high).value().at(0).place.elevation_m == 310.0);
  SeriesKey of_utc = low;
  of_utc.cut = "UTC";
  CHECK(!stored.weather.read(of_utc).value());
  CHECK(stored.weather.others(of_utc).value().at(0).cut == "local standard time");
}

TEST_CASE("doubts about an answer stay as long as days come from it") {
  Kept stored;
  FetchedWeather doubted = answer(1, 0, 2);
  doubted.doubts = {"read by a morning observer", "read by a morning observer"};
  REQUIRE(stored.keep(key(), doubted));
  CHECK(stored.all().doubts == std::vector<std::string>{"read by a morning observer"});
  REQUIRE(stored.keep(key(), answer(9, 0, 1)));
  CHECK(stored.all().doubts.size() == 1);
  REQUIRE(stored.keep(key(), answer(9, 0, 2)));
  CHECK(stored.all().doubts.empty());
}

TEST_CASE("an answer for several sites is kept for all of them or for none") {
  Kept stored;
  stored.store.database().execute(
      "CREATE TRIGGER full BEFORE INSERT ON weather_series WHEN NEW.site = 'bell' BEGIN SELECT RAISE(ABORT, "
      "'no room'); END");
  CHECK(!stored.weather.put({{key("heron"), answer(1, 0, 2)}, {key("bell"), answer(1, 0, 2)}}));
  CHECK(!stored.weather.read(key("heron")).value());
}

TEST_CASE("calls are counted from an instant on, whatever came of them") {
  Kept stored;
  ServiceCalls calls{stored.store};
  REQUIRE(calls.add("open-meteo", {hour(1), 94.0}));
  REQUIRE(calls.add("open-meteo", {hour(5), 1.0}));
  CHECK(calls.since("open-meteo", hour(0)).value().size() == 2);
  const auto late = calls.since("open-meteo", hour(2)).value();
  REQUIRE(late.size() == 1);
  CHECK(late[0].weight == 1.0);
  CHECK(calls.since("power", hour(0)).value().empty());
}

TEST_CASE("notes made before weather could be kept stay when the tables are added") {
  const TemporaryFolder folder;
  const std::string path = folder.file("records.db");
  {
    const Schema old{records_schema().application_id, {records_schema().migrations.front()}};
    auto database = Database::open(path, old, Access::create);
    REQUIRE(database);
    database->execute(
        "INSERT INTO entry(kind, site, date, noted_at, noted_by) VALUES ('check', 'heron', '2026-10-01', "
        "'2026-10-01T08:00:00Z', ''); INSERT INTO \"check\"(entry, state) VALUES (1, 'dormant');");
  }
  Store store = Store::open(path, Access::existing).value();
  CHECK(store.list({}).value().size() == 1);
  CHECK(WeatherStore{store}.put({{key(), answer(1, 0, 2)}}));
}

TEST_CASE("whatever the order of answers, no known value is ever lost") {
  rc::prop("the number of known days never falls", [] {
    Kept stored;
    int known_before = 0;
    const int answers = *rc::gen::inRange(1, 5);
    for (int i = 0; i < answers; ++i) {
      FetchedWeather fetched = answer(i, 0, 0);
      fetched.asked = {first, first + Days{6}};
      for (int day = 0; day < 6; ++day) {
        if (*rc::gen::arbitrary<bool>()) set(fetched.members[0], day, 1.0 + i, 10.0 + i, 0.0);
      }
      RC_ASSERT(stored.keep(key(), fetched).has_value());
      int known = 0;
      const auto days = stored.weather.days(key());
      RC_ASSERT(days.has_value());
      for (const StoredDay& day : *days) known += day.minimum ? 1 : 0;
      RC_ASSERT(known >= known_before);
      known_before = known;
    }
  });
}
