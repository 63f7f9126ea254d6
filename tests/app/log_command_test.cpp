// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

class LogDesk : public Desk {
 public:
  Run log(const std::vector<std::string>& words, const std::string& input = "") const {
    return run(joined(joined({"log"}, words), {"--records", path("log.db")}), input);
  }
  Run add(const std::string& site, const std::string& date, const std::vector<std::string>& more) const {
    return log(joined({"add", more.front(), "--site", site, "--date", date}, {more.begin() + 1, more.end()}));
  }
};

Run application(const LogDesk& desk, const std::string& date) {
  return desk.add("course", date,
                  {"application", "--active", "prodiamine", "--group", "3", "--purpose", "pre"});
}

void check_refused(const Run& run, const std::vector<std::string>& parts) {
  CAPTURE(run.err);
  CHECK(run.code == 2);
  CHECK(run.problems() == 1);
  CHECK(run.out.empty());
  for (const std::string& part : parts) CHECK(holds(run.err, part));
}

}  // namespace

TEST_CASE("what is noted is listed, shown, corrected and taken out, and its history is kept") {
  const LogDesk desk;
  CHECK(application(desk, "2026-09-10").code == 0);
  CHECK(desk.add("course", "2026-10-01",
                 {"count", "--target", "annual bluegrass", "--count", "3", "--count", "0"})
            .code == 0);
  CHECK(desk.add("other", "2026-10-02", {"reading", "--depth", "2in", "--temperature", "62F"}).code == 0);
  CHECK(desk.add("course", "2026-10-03", {"check", "--state", "green"}).code == 0);
  const Run all = desk.log({"list"});
  CHECK(all.code == 0);
  for (const char* part : {"prodiamine", "POAAN", "5.08cm", "green"}) CHECK(holds(all.out, part));
  CHECK(!holds(desk.log({"list", "--site", "course"}).out, "5.08cm"));
  CHECK(!holds(desk.log({"list", "--kind", "count"}).out, "prodiamine"));
  CHECK(!holds(desk.log({"list", "--from", "2026-10-01"}).out, "prodiamine"));

  const Run corrected = desk.log({"correct", "1", "--watering-in", "0.25in"});
  CHECK(corrected.code == 0);
  CHECK(holds(corrected.out, "6.35mm"));
  const Run shown = desk.log({"show", "1"});
  CHECK(holds(shown.out, "prodiamine"));
  CHECK(holds(shown.out, "6.35mm"));
  CHECK(desk.log({"remove", "2"}).code == 0);
  CHECK(!holds(desk.log({"list"}).out, "POAAN"));
  CHECK(holds(desk.log({"show", "2"}).out, "taken out"));
}

TEST_CASE("what is exported can be imported elsewhere, and importing it again adds nothing") {
  const LogDesk from;
  REQUIRE(application(from, "2026-09-10").code == 0);
  REQUIRE(from.add("course", "2026-10-01",
                   {"count", "--target", "POAAN", "--count", "3", "--notes", "wet, \"soft\""})
              .code == 0);
  const std::string table = from.log({"export"}).out;
  const auto rows = csv_rows(table);
  REQUIRE(rows.size() >= 2);
  CHECK(from.log({"export", "--format", "json"}).json().at("entries").size() == 2);

  const LogDesk to;
  const Run imported = to.log({"import", to.file("log.csv", table)});
  CAPTURE(imported.err);
  CHECK(imported.code == 0);
  CHECK(holds(to.log({"list"}).out, "wet, \"soft\""));
  const Run again = to.log({"import", "-"}, table);
  CHECK(again.code == 0);
  CHECK(holds(again.out, "0 entries added"));
  CHECK(holds(again.err, "was not added again"));
}

TEST_CASE("an import with one wrong row takes nothing in and names the line") {
  const LogDesk desk;
  const std::string table =
      "site,date,target,count\ncourse,2026-10-01,POAAN,3\ncourse,2026-13-01,POAAN,4\ncourse,2026-10-03,POAAN,"
      "many\n";
  const Run run = desk.log({"import", desk.file("counts.csv", table), "--kind", "count"});
  CHECK(run.code != 0);
  CHECK(holds(run.err, "counts.csv:3"));
  CHECK(holds(run.err, "counts.csv:4"));
  CHECK(holds(run.err, "nothing of"));
  CHECK(!holds(desk.log({"list"}).out, "POAAN"));
  CHECK(desk.log({"import", desk.path("absent.csv")}).code == 2);
}

TEST_CASE("misuse of the log is refused in one line") {
  const LogDesk desk;
  check_refused(desk.log({"list"}), {"no records file here yet"});
  REQUIRE(application(desk, "2026-09-10").code == 0);
  check_refused(desk.log({}), {"add, list, show, correct, remove, export and import"});
  check_refused(desk.log({"lst"}), {"did you mean 'list'?"});
  check_refused(desk.log({"add"}), {"soilclock log add KIND"});
  check_refused(desk.log({"add", "chek", "--site", "a", "--date", "2026-10-01"}), {"did you mean 'check'?"});
  check_refused(desk.log({"add", "check", "--date", "2026-10-01", "--state", "green"}),
                {"'site'", "missing"});
  check_refused(desk.add("a", "15.10.2026", {"check", "--state", "green"}), {"'date'", "YYYY-MM-DD"});
  check_refused(desk.add("a", "2026-10-01", {"check", "--state", "dorment"}), {"'dorment'", "dormant"});
  check_refused(desk.add("a", "2026-10-01", {"reading", "--depth", "2in", "--temperature", "62"}),
                {"unit is missing"});
  check_refused(desk.add("a", "2026-10-01", {"count", "--target", "POAAN", "--count", "x"}),
                {"whole number"});
  check_refused(desk.add("a", "2026-10-01", {"check", "--state", "green", "--count", "3"}), {"count"});
  check_refused(desk.log({"list", "extra"}), {"too many"});
  check_refused(desk.log({"list", "--notes", "x"}), {"--notes means nothing to 'log list'"});
  check_refused(desk.log({"list", "--kind", "foo"}), {"not known"});
  check_refused(desk.log({"list", "--from", "1/2/2026"}), {"--from is not a date"});
  check_refused(desk.log({"show", "one"}), {"no number of an entry"});
  check_refused(desk.log({"show", "99"}), {"99"});
  check_refused(desk.log({"correct", "1"}), {"nothing to correct"});
  check_refused(desk.log({"correct", "99", "--notes", "x"}), {"99 does not exist"});
  check_refused(desk.log({"remove", "1e30"}), {"no number of an entry"});
  CHECK(holds(desk.log({"list"}).out, "prodiamine"));
}

TEST_CASE("slips that are no errors are noted with a remark") {
  const LogDesk desk;
  REQUIRE(application(desk, "2026-09-10").code == 0);
  CHECK(holds(desk.add("coarse", "2026-10-01", {"check", "--state", "green"}).err,
              "there are entries of 'course'"));
  CHECK(holds(desk.add("course", "2027-10-01", {"check", "--state", "green"}).err, "still to come"));
  CHECK(holds(
      desk.add("course", "2026-10-01", {"application", "--active", "prodiamin", "--purpose", "pre"}).err,
      "did you mean 'prodiamine'?"));
  const Run count = desk.add("course", "2026-10-01", {"count", "--target", "P0AAN", "--count", "3"});
  CHECK(count.code == 0);
  CHECK(holds(count.err, "did you mean 'POAAN'?"));
  CHECK(desk.add("course", "2026-10-02", {"count", "--target", "Poa annua", "--count", "3"}).err.empty());
}
