// SPDX-License-Identifier: MIT
// --on: the morning the answer is given. Nothing measured or noted later may be in it.
#include <catch2/catch.hpp>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// The rows before a day, with the heading.
std::string before(const std::string& table, const std::string& day) {
  return table.substr(0, table.find("\n" + day) + 1);
}

Json answer(const Desk& desk, const std::string& file, const std::string& on) {
  const Run run =
      desk.run(with_place({"advise", "--weather", file, "--on", on, "--format", "json", "--name", "a"}));
  CAPTURE(run.err);
  REQUIRE(run.code == 0);
  return run.json().at("sites")[0];
}

}  // namespace

TEST_CASE("an answer for a past day is that of the file cut before it, and says what it left unread") {
  const Desk desk;
  const std::string table = source_text("weather_samples/millrace_nine.csv");
  const std::string whole = desk.file("whole.csv", table);
  for (const std::string on : {"2020-09-01", "2023-10-20", "2025-12-20"}) {
    const Json late = answer(desk, whole, on);
    const Json cut = answer(desk, desk.file("cut.csv", before(table, on)), on);
    CHECK(late.at("targets") == cut.at("targets"));
    CHECK(late.at("weather").at("last_measured") == cut.at("weather").at("last_measured"));
    const std::string remarks = late.at("remarks").dump();
    CHECK(holds(remarks, "later-rows-ignored"));
    CHECK(!holds(cut.at("remarks").dump(), "later-rows-ignored"));
  }
}

TEST_CASE("the other commands keep to the day, too") {
  const Desk desk;
  const std::string whole = desk.sample("millrace_nine.csv");
  for (const std::string command : {"soil", "degree-days"}) {
    const Json days =
        desk.run(with_place({command, "--weather", whole, "--on", "2020-03-01", "--format", "json"}))
            .json()
            .at("days");
    CHECK(days.back().at("date") == "2020-02-29");
  }
}

TEST_CASE("a leap day is a day like any other") {
  const Desk desk;
  const Json leap = answer(desk, desk.sample("millrace_nine.csv"), "2024-02-29");
  CHECK(leap.at("weather").at("last_measured") == "2024-02-28");
  const Json day_after = answer(desk, desk.sample("millrace_nine.csv"), "2024-03-01");
  CHECK(day_after.at("weather").at("last_measured") == "2024-02-29");
}

TEST_CASE("days far from the record are refused by the record's end, not by a crash") {
  const Desk desk;
  const std::string file = desk.sample("millrace_nine.csv");
  for (const std::string on : {"1900-01-01", "2014-06-01", "2026-12-01", "2030-10-15", "9999-12-31"}) {
    for (const std::string command : {"advise", "season"}) {
      const Run run = desk.run(with_place({command, "--weather", file, "--on", on}));
      CAPTURE(on, run.err);
      CHECK(run.code == 3);
      CHECK(run.problems() == 1);
      CHECK(holds(run.err, on));
    }
  }
  CHECK(desk.run(with_place({"advise", "--weather", file, "--on", "2026-10-20"})).code ==
        0);  // a few days ahead
  CHECK(desk.run(with_place({"advise", "--weather", file, "--on", "10000-01-01"})).code == 2);
}

TEST_CASE("without --on the answer is for today") {
  const Desk desk;
  const Run run =
      desk.run(with_place({"advise", "--weather", desk.sample("millrace_nine.csv"), "--format", "json"}));
  CHECK(run.json().at("on") == "2026-10-15");
}
