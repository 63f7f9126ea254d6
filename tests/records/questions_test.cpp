// SPDX-License-Identifier: MIT
#include "records/questions.hpp"

#include <catch2/catch.hpp>

#include "records/import_csv.hpp"
#include "support/sample_records.hpp"
#include "support/temporary_folder.hpp"
#include "support/text_lines.hpp"

using namespace soilclock;
using namespace soilclock::records;
using tests::mentions;

namespace {

std::string asked(const Record& record, const std::vector<Entry>& held, const Answered& answered = {}) {
  std::vector<std::string> sites;
  for (const Entry& entry : held) sites.push_back(site_of(entry.record));
  const auto question = question_about(record, held, sites, answered);
  if (question) CHECK(question->family == Family::request);
  return question ? describe(*question) : "";
}

}  // namespace

TEST_CASE("a site that differs only in case or spacing is asked about by the id that is there") {
  ScoutingCount held = sample::count();
  held.site = "My Course";
  for (const char* other : {"my course", "MY COURSE", "mycourse", "my-course", "My  Course", "my_course"}) {
    ScoutingCount count = held;
    count.site = other;
    CAPTURE(other);
    CHECK(mentions(asked(count, {{4, {}, held}}), "'My Course'"));
    CHECK(asked(count, {{4, {}, held}}, {true, false}) == "");
  }
  for (const char* other : {"My Coarse", "My Course 2", "Our Course"}) {
    ScoutingCount count = held;
    count.site = other;
    CHECK(asked(count, {{4, {}, held}}) == "");
  }
  CHECK_FALSE(same_site_written_otherwise("my course", {"My Course", "my course"}));
}

TEST_CASE("a second count of the same site, target, area and day is asked about by the entry that is there") {
  const ScoutingCount held = sample::count();
  ScoutingCount again = held;
  again.counts = {1};
  again.plots.reset();
  const std::vector<Entry> entries{{4, {}, held}};
  CHECK(mentions(asked(again, entries), "entry 4"));
  CHECK(mentions(asked(again, entries), "log correct 4"));
  CHECK(mentions(asked(again, entries), "--again"));
  CHECK(asked(again, entries, {false, true}) == "");
  again.area = "Fairway  4";
  CHECK(mentions(asked(again, entries), "entry 4"));
  for (const auto& change : std::vector<std::function<void(ScoutingCount&)>>{
           [](auto& c) { c.area = "green 1"; }, [](auto& c) { c.date = *c.date + Days{1}; },
           [](auto& c) { c.target = "DIGIS"; }, [](auto& c) { c.site = "other"; }}) {
    ScoutingCount other = held;
    change(other);
    CHECK(asked(other, entries) == "");
  }
  CHECK(asked(sample::reading(), {{5, {}, sample::reading()}}) == "");
}

TEST_CASE("an import is asked about by the line, and what is there already is still a duplicate") {
  const TemporaryFolder folder;
  Store store = Store::open(folder.file("records.db"), Access::create).value();
  ScoutingCount held = sample::count();
  held.site = "course";
  REQUIRE(store.add(held, sample::stamp()));
  const std::string text =
      "site,date,target,area,count\n"
      "course,2026-10-20,POAAN,fairway 4,9\n"
      "Course,2026-10-21,POAAN,fairway 4,9\n";
  const auto take = [&](const Answered& answered) {
    return import_csv(store, text, "t.csv", sample::stamp(), {RecordKind::count, answered, {}});
  };
  const auto refused = take({});
  REQUIRE_FALSE(refused);
  REQUIRE(refused.error().size() == 2);
  CHECK(refused.error()[0].where.line == 2);
  CHECK(mentions(refused.error()[0].what, "entry 1"));
  CHECK(refused.error()[1].where.line == 3);
  CHECK(mentions(refused.error()[1].expected, "'course'"));
  CHECK(store.list({})->size() == 1);
  REQUIRE(take({true, true}));
  CHECK(store.list({})->size() == 3);
  CHECK(take({true, false}).value().duplicates.size() == 2);
}

TEST_CASE("sites that differ only in case within one text are asked about, plots of one day are not") {
  const TemporaryFolder folder;
  Store store = Store::open(folder.file("records.db"), Access::create).value();
  const auto take = [&](const std::string& second_site) {
    return import_csv(
        store, "site,date,target,count\ncourse,2026-10-20,POAAN,3\n" + second_site + ",2026-10-20,POAAN,4\n",
        "t.csv", sample::stamp(), {RecordKind::count, {}, {}});
  };
  CHECK_FALSE(take("Course"));
  CHECK(take("course").value().added.size() == 2);
}

TEST_CASE("the sites of a file are those with entries, and those weather is kept for where asked") {
  const TemporaryFolder folder;
  Store store = Store::open(folder.file("records.db"), Access::create).value();
  REQUIRE(store.add(sample::count(), sample::stamp()));
  const EntryId gone = store.add(sample::check(), sample::stamp()).value();
  REQUIRE(store.remove(gone, sample::stamp()));
  store.database().execute(
      "INSERT INTO weather_series(site, service, part, station, latitude, longitude, elevation, clock, cut, "
      "model, day_definition) VALUES ('fetched', 's', 'history', '', 1.0, 1.0, '', '', '', '', '')");
  CHECK(store.sites().value() == std::vector<std::string>{"copper-heron"});
  CHECK(store.sites(true).value() == std::vector<std::string>{"copper-heron", "fetched"});
}
