// SPDX-License-Identifier: MIT
#include "records/advice_store.hpp"

#include <catch2/catch.hpp>

#include "records/schema.hpp"
#include "support/temporary_folder.hpp"

using namespace soilclock;
using namespace soilclock::records;

namespace {

const Day said_on = make_day(2026, 10, 15);

StoredAdvice said(Day on, const std::string& action, const std::string& site = "heron") {
  return {site,
          "POAAN",
          on,
          make_day(2026, 6, 21),
          action,
          "pre+post",
          make_day(2026, 10, 5),
          make_day(2026, 10, 26)};
}

}  // namespace

TEST_CASE("an answer is read back as it was stored") {
  const TemporaryFolder folder;
  Store store = Store::open(folder.file("records.db"), Access::create).value();
  AdviceStore advice{store};
  REQUIRE(advice.put({said(said_on, "treat")}));
  StoredAdvice silent = said(said_on, "nothing-left", "quarry");
  silent.kind.clear();
  silent.best_first.reset();
  silent.best_last.reset();
  REQUIRE(advice.put({silent}));
  const auto read = advice.latest_before("heron", "POAAN", said_on + Days{1}).value();
  REQUIRE(read);
  CHECK(read->on == said_on);
  CHECK(read->season_start == make_day(2026, 6, 21));
  CHECK(read->action == "treat");
  CHECK(read->kind == "pre+post");
  CHECK(read->best_first == make_day(2026, 10, 5));
  CHECK(read->best_last == make_day(2026, 10, 26));
  const auto closed = advice.latest_before("quarry", "POAAN", said_on + Days{1}).value();
  REQUIRE(closed);
  CHECK(closed->kind.empty());
  CHECK(!closed->best_first);
}

TEST_CASE("the latest answer before a day is found, of that site and grass only") {
  const TemporaryFolder folder;
  Store store = Store::open(folder.file("records.db"), Access::create).value();
  AdviceStore advice{store};
  REQUIRE(advice.put(
      {said(said_on, "treat"), said(said_on - Days{7}, "wait"), said(said_on - Days{9}, "scout")}));
  CHECK(advice.latest_before("heron", "POAAN", said_on).value()->action == "wait");
  CHECK(advice.latest_before("heron", "POAAN", said_on + Days{30}).value()->action == "treat");
  CHECK(!advice.latest_before("heron", "POAAN", said_on - Days{9}).value());
  CHECK(!advice.latest_before("heron", "DIGIS", said_on).value());
  CHECK(!advice.latest_before("quarry", "POAAN", said_on).value());
}

TEST_CASE("a second answer of a day takes the place of the first") {
  const TemporaryFolder folder;
  Store store = Store::open(folder.file("records.db"), Access::create).value();
  AdviceStore advice{store};
  REQUIRE(advice.put({said(said_on, "wait")}));
  REQUIRE(advice.put({said(said_on, "treat")}));
  CHECK(advice.latest_before("heron", "POAAN", said_on + Days{1}).value()->action == "treat");
  CHECK(!advice.latest_before("heron", "POAAN", said_on).value());
}

TEST_CASE("a records file made before answers were stored takes them and loses nothing") {
  const TemporaryFolder folder;
  const std::string path = folder.file("records.db");
  {
    const auto& all = records_schema().migrations;
    const Schema old{records_schema().application_id, {all.begin(), all.begin() + 3}};
    auto database = Database::open(path, old, Access::create);
    REQUIRE(database);
    database->execute(
        "INSERT INTO entry(kind, site, date, noted_at, noted_by) VALUES ('check', 'heron', '2026-10-01', "
        "'2026-10-01T08:00:00Z', ''); INSERT INTO \"check\"(entry, state) VALUES (1, 'dormant');");
  }
  Store store = Store::open(path, Access::existing).value();
  AdviceStore advice{store};
  CHECK(!advice.latest_before("heron", "POAAN", said_on).value());
  REQUIRE(advice.put({said(said_on, "wait")}));
  CHECK(advice.latest_before("heron", "POAAN", said_on + Days{1}).value()->action == "wait");
  CHECK(store.list({}).value().size() == 1);
}

TEST_CASE("an event of a season is stored as it was announced last") {
  const TemporaryFolder folder;
  Store store = Store::open(folder.file("records.db"), Access::create).value();
  AdviceStore advice{store};
  const Day season = make_day(2026, 6, 21);
  const DayRange first{said_on, said_on + Days{7}};
  const DayRange later{said_on + Days{7}, said_on + Days{14}};
  REQUIRE(advice.put(
      {}, {{"heron", "POAAN", season, "best-weeks", first}, {"heron", "POAAN", season, "then", first}}));
  REQUIRE(advice.put({}, {{"heron", "POAAN", season, "best-weeks", later}}));
  const auto events = advice.announced("heron", "POAAN", season).value();
  REQUIRE(events.size() == 2);
  CHECK(events[0].event == "best-weeks");
  CHECK((events[0].days == later));
  CHECK((events[1].days == first));
  CHECK(advice.announced("heron", "POAAN", season + Days{365}).value().empty());
  CHECK(advice.announced("heron", "DIGIS", season).value().empty());
}

TEST_CASE("a stored day that is none is refused and not guessed at") {
  const TemporaryFolder folder;
  Store store = Store::open(folder.file("records.db"), Access::create).value();
  store.database().execute(
      "INSERT INTO advice VALUES ('heron', 'POAAN', '2026-10-01', 'midsummer', 'wait', NULL, NULL, NULL)");
  const auto read = AdviceStore{store}.latest_before("heron", "POAAN", said_on);
  REQUIRE(!read);
  CHECK(read.error().family == Family::data);
}
