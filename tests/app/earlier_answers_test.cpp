// SPDX-License-Identifier: MIT
// What a report said is stored where there is a records file, and the next one tells what changed.
#include <catch2/catch.hpp>

#include "records/advice_store.hpp"
#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

std::string text_at(const Desk& desk, const std::string& name) {
  std::ifstream in{desk.path(name), std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, {}};
}

/// A course with a records file; a report and an answer of it on a day.
struct ReportingDesk {
  ReportingDesk() {
    records = desk.path("records.db");
    const auto made = records::Store::open(records, records::Access::create);
    REQUIRE(made);
    sites = desk.file(
        "s.json",
        "[" + site_line("heron", desk.file("good.csv", made_up_weather(make_day(2025, 6, 1), 501))) + "]");
  }

  Run report(const std::string& on, const std::string& folder) const {
    return desk.run(
        {"report", "--sites", sites, "--records", records, "--on", on, "--output", desk.path(folder)});
  }

  Run advise(const std::string& on) const {
    return desk.run({"advise", "--sites", sites, "--records", records, "--on", on, "--format", "json"});
  }

  /// Stores that on a day the best weeks were far ahead.
  void say(Day on, const std::string& action) const {
    auto store = records::Store::open(records, records::Access::existing);
    REQUIRE(store);
    const Day far = make_day(2027, 2, 1);
    REQUIRE(records::AdviceStore{*store}.put(
        {{"heron", "POAAN", on, make_day(2026, 6, 21), action, "", far, far}}));
  }

  Desk desk;
  std::string records;
  std::string sites;
};

Json changed_of(const Run& run) { return run.json()["sites"][0]["targets"][0]["changed"]; }

}  // namespace

TEST_CASE("a report stores what it says and later answers are compared with it, the latest first") {
  const ReportingDesk at;
  CHECK(changed_of(at.advise("2026-10-15")).is_null());
  REQUIRE(at.report("2026-09-01", "a").code == 0);
  CHECK(!holds(text_at(at.desk, "a/index.html"), "hanged since"));
  CHECK(changed_of(at.advise("2026-10-15"))["since"] == "2026-09-01");
  CHECK(changed_of(at.advise("2026-09-01")).is_null());
  REQUIRE(at.report("2026-09-20", "b").code == 0);
  CHECK(holds(text_at(at.desk, "b/index.html"), "hanged since Sep 1"));
  CHECK(changed_of(at.advise("2026-10-15"))["since"] == "2026-09-20");
}

TEST_CASE("a second report of a day shows what the first one showed") {
  const ReportingDesk at;
  at.say(make_day(2026, 10, 1), "wait");
  REQUIRE(at.report("2026-10-15", "a").code == 0);
  REQUIRE(at.report("2026-10-15", "b").code == 0);
  for (const char* file : {"index.html", "heron.html", "heron.txt", "calendar.ics"})
    CHECK(text_at(at.desk, std::string{"a/"} + file) == text_at(at.desk, std::string{"b/"} + file));
}

TEST_CASE("best weeks that moved stand on the page of all courses, in the message and in the text") {
  const ReportingDesk at;
  at.say(make_day(2026, 10, 1), "wait");
  REQUIRE(at.report("2026-10-15", "pages").code == 0);
  CHECK(holds(text_at(at.desk, "pages/index.html"), "Changed since Oct 1"));
  CHECK(holds(text_at(at.desk, "pages/index.html"), "(were Feb 1 to Feb 7)"));
  CHECK(holds(text_at(at.desk, "pages/heron.txt"), "Changed since Oct 1: "));
  const Run text = at.desk.run(
      {"advise", "--sites", at.sites, "--records", at.records, "--on", "2026-10-15", "--format", "text"});
  CHECK(holds(text.out, "since Oct 1: "));
  const Json changed = changed_of(at.advise("2026-10-15"));
  CHECK(changed["since"] == "2026-10-01");
  CHECK(changed["changes"].back()["what"] == "best-weeks-moved");
}

TEST_CASE("an answer alone stores nothing") {
  const ReportingDesk at;
  CHECK(at.advise("2026-09-01").code == 0);
  CHECK(changed_of(at.advise("2026-10-15")).is_null());
}

TEST_CASE("without a records file nothing is compared and none is made") {
  const ReportingDesk at;
  CHECK(at.desk.run({"report", "--sites", at.sites, "--output", at.desk.path("pages")}).code == 0);
  CHECK(!holds(text_at(at.desk, "pages/index.html"), "hanged since"));
  CHECK(!std::filesystem::exists(at.desk.path("own-records/soilclock/records.db")));
}

TEST_CASE("a calendar event that no longer holds is canceled in every later report until it has passed") {
  const ReportingDesk at;
  {
    auto store = records::Store::open(at.records, records::Access::existing);
    REQUIRE(store);
    const DayRange days{make_day(2026, 12, 1), make_day(2026, 12, 2)};
    REQUIRE(records::AdviceStore{*store}.put(
        {}, {{"heron", "POAAN", make_day(2026, 6, 21), "second-pre", days}}));
  }
  for (const char* on : {"2026-10-10", "2026-10-15"}) {
    REQUIRE(at.report(on, on).code == 0);
    CHECK(holds(text_at(at.desk, std::string{on} + "/calendar.ics"), "STATUS:CANCELLED"));
  }
  CHECK(at.desk.run({"report", "--sites", at.sites, "--on", "2026-10-15", "--output", at.desk.path("c")})
            .code == 0);
  CHECK(!holds(text_at(at.desk, "c/calendar.ics"), "STATUS:CANCELLED"));
}

TEST_CASE("an earlier answer in words that nobody wrote is said and not guessed at") {
  const ReportingDesk at;
  at.say(make_day(2026, 10, 1), "dance");
  const Run run = at.advise("2026-10-15");
  CHECK(run.code == 1);
  CHECK(holds(run.err, "an earlier answer in the records file cannot be read"));
}
