// SPDX-License-Identifier: MIT
#include "records/database.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "records/schema.hpp"
#include "records/store.hpp"
#include "support/temporary_folder.hpp"

using namespace soilclock;
using namespace soilclock::records;

namespace {

const Schema one_step{77, {"CREATE TABLE note(id INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT;"}};
const Schema two_steps{77, {one_step.migrations[0], "ALTER TABLE note ADD COLUMN color TEXT;"}};
const Schema broken_step{77,
                         {one_step.migrations[0], "ALTER TABLE note ADD COLUMN color TEXT; NO SUCH WORD;"}};

std::int64_t number(Database& database, const std::string& sql) {
  return std::get<std::int64_t>(database.single(sql));
}

}  // namespace

TEST_CASE("a new file is made ready to lose nothing") {
  const TemporaryFolder folder;
  auto database = Database::open(folder.file("new.db"), one_step, Access::create);
  REQUIRE(database);
  CHECK(std::get<std::string>(database->single("PRAGMA journal_mode")) == "wal");
  CHECK(number(*database, "PRAGMA synchronous") == 2);  // FULL in the list of the SQLite manual
  CHECK(number(*database, "PRAGMA foreign_keys") == 1);
  CHECK(number(*database, "PRAGMA user_version") == 1);
  CHECK(number(*database, "PRAGMA application_id") == 77);
}

TEST_CASE("a file of version 1 is brought to version 2 with its content") {
  const TemporaryFolder folder;
  const std::string path = folder.file("old.db");
  {
    auto database = Database::open(path, one_step, Access::create);
    REQUIRE(database);
    database->execute("INSERT INTO note(text) VALUES ('kept')");
  }
  auto database = Database::open(path, two_steps, Access::existing);
  REQUIRE(database);
  CHECK(number(*database, "PRAGMA user_version") == 2);
  CHECK(std::get<std::string>(database->single("SELECT text FROM note WHERE color IS NULL")) == "kept");
}

TEST_CASE("a file that is only read is brought up to date where it can be written") {
  const TemporaryFolder folder;
  const std::string path = folder.file("old.db");
  REQUIRE(Database::open(path, one_step, Access::create));
  auto database = Database::open(path, two_steps, Access::reading);
  REQUIRE(database);
  CHECK(number(*database, "PRAGMA user_version") == 2);
  CHECK_FALSE(Database::open(folder.file("none.db"), one_step, Access::reading));
  CHECK_FALSE(std::filesystem::exists(folder.file("none.db")));
}

TEST_CASE("a migration that fails half way leaves the file as it was") {
  const TemporaryFolder folder;
  const std::string path = folder.file("old.db");
  REQUIRE(Database::open(path, one_step, Access::create));
  CHECK_FALSE(Database::open(path, broken_step, Access::existing));
  auto database = Database::open(path, one_step, Access::existing);
  REQUIRE(database);
  CHECK(number(*database, "SELECT count(*) FROM pragma_table_info('note')") == 2);
}

TEST_CASE("a file of a newer version is refused and not touched") {
  const TemporaryFolder folder;
  const std::string path = folder.file("newer.db");
  REQUIRE(Database::open(path, two_steps, Access::create));
  const auto refused = Database::open(path, one_step, Access::create);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().family == Family::data);
  CHECK(refused.error().what.find("version 2") != std::string::npos);
  CHECK(refused.error().remedy.find("newer") != std::string::npos);
  CHECK(Database::open(path, two_steps, Access::existing));
}

TEST_CASE("a file that is no database, or another program's, is refused and not touched") {
  const TemporaryFolder folder;
  for (const std::string& content : {std::string{"date,tmin\n"}, std::string(5000, 'x'), std::string{"SQ"}}) {
    const std::string path = folder.file("table.csv");
    std::ofstream{path, std::ios::binary} << content;
    const auto refused = Database::open(path, one_step, Access::create);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().family == Family::data);
    std::ifstream again{path, std::ios::binary};
    CHECK(std::string{std::istreambuf_iterator<char>{again}, {}} == content);
  }
  const std::string path = folder.file("foreign.db");
  REQUIRE(Database::open(path, Schema{78, one_step.migrations}, Access::create));
  const auto refused = Database::open(path, one_step, Access::create);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().what.find("another program") != std::string::npos);
}

TEST_CASE("a path that cannot be opened is an environment problem, a missing one of the request") {
  const TemporaryFolder folder;
  const auto no_folder = Database::open(folder.file("no/such/folder.db"), one_step, Access::create);
  REQUIRE_FALSE(no_folder);
  CHECK(no_folder.error().family == Family::environment);
  const auto a_folder = Database::open(folder.file("."), one_step, Access::create);
  REQUIRE_FALSE(a_folder);
  CHECK(a_folder.error().family == Family::environment);
  const auto missing = Database::open(folder.file("none.db"), one_step, Access::existing);
  REQUIRE_FALSE(missing);
  CHECK(missing.error().family == Family::request);
  CHECK_FALSE(std::filesystem::exists(folder.file("none.db")));
  CHECK_FALSE(Database::open("", one_step, Access::create));
}

TEST_CASE("a name that begins with a colon or with file: is a file like any other") {
  const TemporaryFolder folder;
  const auto before = std::filesystem::current_path();
  std::filesystem::current_path(folder.file("."));
  for (const char* name : {":memory:", "file:notes.db", "file::memory:", "file:notes.db?mode=memory"}) {
    CAPTURE(name);
    {
      auto database = Database::open(name, one_step, Access::create);
      REQUIRE(database);
      database->execute("INSERT INTO note(text) VALUES ('kept')");
    }
    CHECK(std::filesystem::is_regular_file(name));
    auto again = Database::open(name, one_step, Access::existing);
    REQUIRE(again);
    CHECK(number(*again, "SELECT count(*) FROM note") == 1);
  }
  std::filesystem::current_path(before);
}

TEST_CASE("a new file and its journal are read by their owner only") {
  using std::filesystem::perms;
  const TemporaryFolder folder;
  const std::string path = folder.file("private.db");
  auto database = Database::open(path, one_step, Access::create);
  REQUIRE(database);
  database->execute("INSERT INTO note(text) VALUES ('x')");
  for (const std::string& name : {path, path + "-wal"}) {
    CAPTURE(name);
    CHECK(std::filesystem::status(name).permissions() == (perms::owner_read | perms::owner_write));
  }
}

TEST_CASE("a file whose version or tables are not what they should be is damaged, and is not touched") {
  struct Damage {
    const char* sql;
    const char* said;
  };
  const Damage damages[]{
      {"PRAGMA user_version = -1", "it says version -1"},
      {"PRAGMA user_version = -2147483648", "it says version -2147483648"},
      {"PRAGMA user_version = 0", "it says version 0"},
      {"PRAGMA user_version = 1", "not those of version 1"},  // the column of version 2 is there already
      {"ALTER TABLE note DROP COLUMN color", "it lacks note.color"},
      {"DROP TABLE note", "it lacks note.id"},
  };
  for (const Damage& damage : damages) {
    CAPTURE(damage.sql);
    const TemporaryFolder folder;
    const std::string path = folder.file("damaged.db");
    {
      auto database = Database::open(path, two_steps, Access::create);
      REQUIRE(database);
      database->execute(damage.sql);
    }
    for (const Access access : {Access::existing, Access::create}) {
      const auto refused = Database::open(path, two_steps, access);
      REQUIRE_FALSE(refused);
      CHECK(refused.error().family == Family::data);
      CHECK(refused.error().what.find(damage.said) != std::string::npos);
      CHECK(!refused.error().remedy.empty());
    }
  }
}

TEST_CASE("an empty file is taken as a new one") {
  const TemporaryFolder folder;
  std::ofstream{folder.file("empty.db")};
  CHECK(Database::open(folder.file("empty.db"), one_step, Access::existing));
}

TEST_CASE("a damaged file is refused as damaged") {
  const TemporaryFolder folder;
  const std::string path = folder.file("records.db");
  REQUIRE(Store::open(path, Access::create));
  {
    std::fstream file{path, std::ios::in | std::ios::out | std::ios::binary};
    file.seekp(100);  // behind the 100-byte header: the page that holds the list of tables
    file << std::string(3000, '\x7F');
  }
  const auto refused = Store::open(path, Access::existing);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().family == Family::data);
  CHECK(refused.error().what.find("damaged") != std::string::npos);
}

TEST_CASE("what is not committed is undone") {
  const TemporaryFolder folder;
  auto database = Database::open(folder.file("new.db"), one_step, Access::create);
  REQUIRE(database);
  {
    const Transaction transaction{*database, true};
    database->execute("INSERT INTO note(text) VALUES ('lost')");
  }
  CHECK(number(*database, "SELECT count(*) FROM note") == 0);
}

TEST_CASE("a records file written by the first release is read by this one") {
  const TemporaryFolder folder;
  const std::string path = folder.file("records.db");
  {
    // The first version of the tables, written out again here so that an edit of the released migration
    // shows.
    const Schema released{0x536F696C, {R"sql(
      CREATE TABLE entry(id INTEGER PRIMARY KEY AUTOINCREMENT, kind TEXT NOT NULL, site TEXT NOT NULL,
        date TEXT NOT NULL, supersedes INTEGER UNIQUE REFERENCES entry(id), removed INTEGER NOT NULL DEFAULT 0,
        noted_at TEXT NOT NULL, noted_by TEXT NOT NULL) STRICT;
      CREATE TABLE application(entry INTEGER PRIMARY KEY REFERENCES entry(id), start TEXT, "end" TEXT, area TEXT,
        turf TEXT, target TEXT, stage TEXT, active TEXT, "group" TEXT, purpose TEXT, split_part INTEGER,
        watering_in_mm REAL, watering_date TEXT, applicator TEXT, licence TEXT, registration TEXT, amount TEXT,
        volume TEXT, nozzle TEXT, wind_m_per_s REAL, wind_from_degrees REAL, air_temperature_c REAL,
        humidity_percent REAL, soil_temperature_c REAL, rain_after_mm REAL, re_entry TEXT, photo TEXT,
        notes TEXT) STRICT;
      CREATE TABLE count(entry INTEGER PRIMARY KEY REFERENCES entry(id), target TEXT NOT NULL, plots INTEGER,
        plot_area_m2 REAL, count TEXT, share_percent REAL, counted TEXT, stage TEXT, area TEXT, notes TEXT) STRICT;
      CREATE TABLE reading(entry INTEGER PRIMARY KEY REFERENCES entry(id), time TEXT, depth_cm REAL NOT NULL,
        temperature_c REAL NOT NULL, area TEXT, notes TEXT) STRICT;
      CREATE TABLE "check"(entry INTEGER PRIMARY KEY REFERENCES entry(id), state TEXT NOT NULL, seen_by TEXT,
        area TEXT, notes TEXT) STRICT;)sql"}};
    auto database = Database::open(path, released, Access::create);
    REQUIRE(database);
    database->execute(R"sql(
      INSERT INTO entry VALUES (1, 'application', 'copper-heron', '2026-10-14', NULL, 0, '2026-10-14T12:00:00Z', 'me');
      INSERT INTO application(entry, active, "group", purpose, watering_in_mm, licence)
        VALUES (1, 'prodiamine; 2,4-D', '3; 4', 'pre+post', 6.5, 'C-1234');
      INSERT INTO entry VALUES (2, 'reading', 'copper-heron', '2026-10-12', NULL, 0, '2026-10-14T12:00:00Z', '');
      INSERT INTO reading(entry, time, depth_cm, temperature_c) VALUES (2, '09:00', 5.0, 17.25);)sql");
  }
  auto store = Store::open(path, Access::existing);
  REQUIRE(store);
  const auto entries = store->list({});
  REQUIRE(entries);
  REQUIRE(entries->size() == 2);
  const auto& reading = std::get<ProbeReading>((*entries)[0].record);
  CHECK(reading.temperature->celsius() == 17.25);
  CHECK(reading.time == ClockTime{540});
  const auto& application = std::get<Application>((*entries)[1].record);
  CHECK(application.actives == std::vector<std::string>{"prodiamine", "2,4-D"});
  CHECK(application.groups == std::vector<int>{3, 4});
  CHECK(application.watering_in->mm() == 6.5);
  CHECK(application.license == "C-1234");
  CHECK_FALSE(application.rain_after);
}
