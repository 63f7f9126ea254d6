// SPDX-License-Identifier: MIT
// Written out and frozen: a migration that has been released is never edited, because files made by it exist.
// The columns beyond site and date follow the field lists (field.cpp); a test holds the two together.
#include "records/schema.hpp"

namespace soilclock::records {

namespace {

// An entry is never changed. A correction is a new entry that supersedes the old one; a removal is a
// superseding entry without content. UNIQUE lets only one of two simultaneous corrections through.
// AUTOINCREMENT: a number is never used twice, so that "entry 7" on a printout stays entry 7.
constexpr const char* first_version = R"sql(
CREATE TABLE entry(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  kind TEXT NOT NULL CHECK (kind IN ('application', 'count', 'reading', 'check')),
  site TEXT NOT NULL,
  date TEXT NOT NULL,
  supersedes INTEGER UNIQUE REFERENCES entry(id),
  removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
  noted_at TEXT NOT NULL,
  noted_by TEXT NOT NULL
) STRICT;
CREATE INDEX entry_by_site ON entry(site, kind, date);
CREATE TABLE application(
  entry INTEGER PRIMARY KEY REFERENCES entry(id),
  start TEXT, "end" TEXT, area TEXT, turf TEXT, target TEXT, stage TEXT, active TEXT, "group" TEXT, purpose TEXT,
  split_part INTEGER, watering_in_mm REAL, watering_date TEXT, applicator TEXT, licence TEXT, registration TEXT,
  amount TEXT, volume TEXT, nozzle TEXT, wind_m_per_s REAL, wind_from_degrees REAL, air_temperature_c REAL,
  humidity_percent REAL, soil_temperature_c REAL, rain_after_mm REAL, re_entry TEXT, photo TEXT, notes TEXT
) STRICT;
CREATE TABLE count(
  entry INTEGER PRIMARY KEY REFERENCES entry(id),
  target TEXT NOT NULL, plots INTEGER, plot_area_m2 REAL, count TEXT, share_percent REAL, counted TEXT, stage TEXT,
  area TEXT, notes TEXT
) STRICT;
CREATE TABLE reading(
  entry INTEGER PRIMARY KEY REFERENCES entry(id),
  time TEXT, depth_cm REAL NOT NULL, temperature_c REAL NOT NULL, area TEXT, notes TEXT
) STRICT;
CREATE TABLE "check"(
  entry INTEGER PRIMARY KEY REFERENCES entry(id),
  state TEXT NOT NULL, seen_by TEXT, area TEXT, notes TEXT
) STRICT;
)sql";

// Weather from open services. known_from is the answer a day's temperatures come from, asked_in the last one
// that was to hold the day; they differ when a service lost a day again. What a series is kept apart by is
// never NULL, since NULLs are not equal.
constexpr const char* second_version = R"sql(
CREATE TABLE weather_series(
  id INTEGER PRIMARY KEY,
  site TEXT NOT NULL,
  service TEXT NOT NULL,
  part TEXT NOT NULL CHECK (part IN ('history', 'forecast', 'members')),
  station TEXT NOT NULL,
  latitude REAL NOT NULL,
  longitude REAL NOT NULL,
  elevation TEXT NOT NULL,
  clock TEXT NOT NULL,
  cut TEXT NOT NULL,
  model TEXT NOT NULL,
  day_definition TEXT NOT NULL,
  cell_latitude REAL, cell_longitude REAL, cell_elevation_m REAL,
  UNIQUE (site, service, part, station, latitude, longitude, elevation, clock, cut)
) STRICT;
CREATE INDEX weather_series_by_cell ON weather_series(service, part, cell_latitude, cell_longitude);
CREATE TABLE weather_answer(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  series INTEGER NOT NULL REFERENCES weather_series(id),
  given_at TEXT NOT NULL,
  origin TEXT NOT NULL
) STRICT;
CREATE INDEX weather_answer_by_series ON weather_answer(series, given_at);
CREATE TABLE weather_doubt(
  answer INTEGER NOT NULL REFERENCES weather_answer(id),
  text TEXT NOT NULL,
  PRIMARY KEY (answer, text)
) STRICT, WITHOUT ROWID;
CREATE TABLE weather_day(
  series INTEGER NOT NULL REFERENCES weather_series(id),
  member INTEGER NOT NULL,
  date TEXT NOT NULL,
  minimum_c REAL, maximum_c REAL, rain_mm REAL,
  known_from INTEGER NOT NULL REFERENCES weather_answer(id),
  asked_in INTEGER NOT NULL REFERENCES weather_answer(id),
  PRIMARY KEY (series, member, date)
) STRICT, WITHOUT ROWID;
CREATE TABLE weather_hour(
  series INTEGER NOT NULL REFERENCES weather_series(id),
  date TEXT NOT NULL,
  minute INTEGER NOT NULL,
  air_c REAL, humidity_percent REAL, wind_m_per_s REAL, rain_mm REAL,
  PRIMARY KEY (series, date, minute)
) STRICT, WITHOUT ROWID;
CREATE TABLE service_call(
  id INTEGER PRIMARY KEY,
  service TEXT NOT NULL,
  sent_at TEXT NOT NULL,
  weight REAL NOT NULL
) STRICT;
CREATE INDEX service_call_by_time ON service_call(service, sent_at);
)sql";

// A fifth kind, and the units a record was noted in. A constraint of a table cannot be changed, so the table
// is made anew; the database looks at no references while a migration runs, and at all of them before it is
// kept.
constexpr const char* third_version = R"sql(
CREATE TABLE new_entry(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  kind TEXT NOT NULL CHECK (kind IN ('application', 'count', 'reading', 'check', 'first-seen')),
  site TEXT NOT NULL,
  date TEXT NOT NULL,
  supersedes INTEGER UNIQUE REFERENCES entry(id),
  removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
  noted_at TEXT NOT NULL,
  noted_by TEXT NOT NULL,
  noted_units TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO new_entry(id, kind, site, date, supersedes, removed, noted_at, noted_by)
  SELECT id, kind, site, date, supersedes, removed, noted_at, noted_by FROM entry;
DROP TABLE entry;
ALTER TABLE new_entry RENAME TO entry;
CREATE INDEX entry_by_site ON entry(site, kind, date);
CREATE TABLE "first-seen"(
  entry INTEGER PRIMARY KEY REFERENCES entry(id),
  target TEXT NOT NULL, seen_by TEXT, area TEXT, notes TEXT
) STRICT;
)sql";

// What reports said, so that a later one can say what changed. One line a day: a second report of the day
// takes the place of the first.
constexpr const char* fourth_version = R"sql(
CREATE TABLE advice(
  site TEXT NOT NULL,
  target TEXT NOT NULL,
  date TEXT NOT NULL,
  season_start TEXT NOT NULL,
  action TEXT NOT NULL,
  kind TEXT,
  best_first TEXT, best_last TEXT,
  PRIMARY KEY (site, target, date)
) STRICT, WITHOUT ROWID;
)sql";

// The calendar events that reports announced, so that one that no longer holds can be canceled: programs that
// imported it know it by its name. One line for each event of a season, as it was announced last.
constexpr const char* fifth_version = R"sql(
CREATE TABLE announced(
  site TEXT NOT NULL,
  target TEXT NOT NULL,
  season_start TEXT NOT NULL,
  event TEXT NOT NULL,
  first TEXT NOT NULL,
  after TEXT NOT NULL,
  PRIMARY KEY (site, target, season_start, event)
) STRICT, WITHOUT ROWID;
)sql";

// A sixth kind; the table of entries is made anew as for the fifth.
constexpr const char* sixth_version = R"sql(
CREATE TABLE new_entry(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  kind TEXT NOT NULL CHECK (kind IN ('application', 'count', 'reading', 'check', 'first-seen', 'strip')),
  site TEXT NOT NULL,
  date TEXT NOT NULL,
  supersedes INTEGER UNIQUE REFERENCES entry(id),
  removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
  noted_at TEXT NOT NULL,
  noted_by TEXT NOT NULL,
  noted_units TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO new_entry(id, kind, site, date, supersedes, removed, noted_at, noted_by, noted_units)
  SELECT id, kind, site, date, supersedes, removed, noted_at, noted_by, noted_units FROM entry;
DROP TABLE entry;
ALTER TABLE new_entry RENAME TO entry;
CREATE INDEX entry_by_site ON entry(site, kind, date);
CREATE TABLE strip(
  entry INTEGER PRIMARY KEY REFERENCES entry(id),
  target TEXT NOT NULL, treated TEXT, untreated TEXT, treated_before TEXT, untreated_before TEXT,
  treated_share_percent REAL, untreated_share_percent REAL, treated_share_before_percent REAL,
  untreated_share_before_percent REAL, area TEXT, notes TEXT
) STRICT;
)sql";

// A column by its American name.
constexpr const char* seventh_version = R"sql(
ALTER TABLE application RENAME COLUMN licence TO license;
)sql";

}  // namespace

const Schema& records_schema() {
  // "Soil" in ASCII marks the file as ours.
  static const Schema schema{0x536F696C,
                             {first_version, second_version, third_version, fourth_version, fifth_version,
                              sixth_version, seventh_version}};
  return schema;
}

}  // namespace soilclock::records
