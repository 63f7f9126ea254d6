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

}  // namespace

const Schema& records_schema() {
  // "Soil" in ASCII marks the file as ours.
  static const Schema schema{0x536F696C, {first_version}};
  return schema;
}

}  // namespace soilclock::records
