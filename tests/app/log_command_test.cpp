// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "records/entries/field.hpp"
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
  for (const char* part : {"prodiamine", "POAAN", "depth 2 in; temperature 62 F", "green"})
    CHECK(holds(all.out, part));
  CHECK(!holds(desk.log({"list", "--site", "course"}).out, "2 in"));
  CHECK(!holds(desk.log({"list", "--kind", "count"}).out, "prodiamine"));
  CHECK(!holds(desk.log({"list", "--from", "2026-10-01"}).out, "prodiamine"));

  const Run corrected = desk.log({"correct", "1", "--watering-in", "0.25in"});
  CHECK(corrected.code == 0);
  CHECK(holds(corrected.out, "0.25 in"));
  const Run shown = desk.log({"show", "1"});
  CHECK(holds(shown.out, "prodiamine"));
  CHECK(holds(shown.out, "0.25 in"));
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

TEST_CASE(
    "what was noted in Fahrenheit and inches comes back so: listed, shown, exported as text and moved") {
  const LogDesk desk;
  for (const char* noted : {"62F", "50F", "61.5F", "33.1 F"}) {
    const Run run = desk.add("course", "2026-10-01", {"reading", "--depth", "2in", "--temperature", noted});
    REQUIRE(run.code == 0);
  }
  const auto all_there = [](const std::string& text) {
    for (const char* part :
         {"temperature 62 F", "temperature 50 F", "temperature 61.5 F", "temperature 33.1 F", "depth 2 in"}) {
      CAPTURE(part, text);
      CHECK(holds(text, part));
    }
    CHECK(!holds(text, " C"));
    CHECK(!holds(text, "cm"));
  };
  all_there(desk.log({"list"}).out);
  all_there(desk.log({"export", "--format", "text"}).out);
  CHECK(holds(desk.log({"show", "2"}).out, "temperature 50 F"));
  const Json json = desk.log({"export", "--format", "json"}).json();
  CHECK(json.at("entries")[1].at("temperature_c") == 10.0);
  CHECK(json.at("entries")[1].at("noted_units").at("temperature") == "F");
  const LogDesk other;
  REQUIRE(other.log({"import", "-"}, desk.log({"export"}).out).code == 0);
  all_there(other.log({"list"}).out);
  const LogDesk by_hand;
  REQUIRE(by_hand
              .log({"import", "-", "--kind", "reading"},
                   "site,date,depth_in,temperature_f\ncourse,2026-10-01,2,62\n")
              .code == 0);
  CHECK(holds(by_hand.log({"list"}).out, "depth 2 in; temperature 62 F"));
}

TEST_CASE("a site that differs only in case or spacing is asked about, unless a new one is meant") {
  const LogDesk desk;
  REQUIRE(desk.add("My Course", "2026-10-01", {"check", "--state", "green"}).code == 0);
  for (const char* other : {"my course", "MyCourse", "my-course"})
    check_refused(desk.add(other, "2026-10-02", {"check", "--state", "green"}),
                  {"'My Course'", "--new-site"});
  check_refused(desk.log({"list", "--site", "my course"}), {"'My Course'"});
  check_refused(desk.log({"export", "--site", "my course"}), {"'My Course'"});
  CHECK(desk.add("my course", "2026-10-02", {"check", "--state", "dormant", "--new-site"}).code == 0);
  CHECK(holds(desk.log({"list", "--site", "my course"}).out, "dormant"));
  CHECK(!holds(desk.log({"list", "--site", "My Course"}).out, "dormant"));
  check_refused(desk.log({"list", "--new-site"}), {"--new-site means nothing to 'log list'"});
  check_refused(desk.log({"correct", "1", "--site", "MY COURSE"}), {"--new-site"});
  CHECK(desk.log({"remove", "2"}).code == 0);
  CHECK(desk.log({"correct", "1", "--site", "MY COURSE"}).code == 0);  // no other entry has the old id
}

TEST_CASE("a count given twice is asked about by the entry that is there") {
  const LogDesk desk;
  const std::vector<std::string> count{"count", "--target", "POAAN", "--area", "green 3", "--count", "3"};
  REQUIRE(desk.add("course", "2026-10-01", count).code == 0);
  check_refused(desk.add("course", "2026-10-01", count), {"entry 1", "soilclock log correct 1", "--again"});
  CHECK(desk.add("course", "2026-10-01", joined(count, {"--again"})).code == 0);
  CHECK(desk.add("course", "2026-10-02", count).code == 0);
  check_refused(desk.log({"correct", "1", "--count", "4", "--again"}), {"--again means nothing"});
  const std::string table = "site,date,target,area,count\ncourse,2026-10-02,Poa annua,Green 3,5\n";
  const Run imported = desk.log({"import", "-", "--kind", "count"}, table);
  CHECK(imported.code == 3);
  CHECK(holds(imported.err, "standard input:2"));
  CHECK(holds(imported.err, "log correct 3"));
  CHECK(desk.log({"import", "-", "--kind", "count", "--again"}, table).code == 0);
}

TEST_CASE("what log add takes for a field log import takes under the same name, and both keep the same") {
  struct Noted {
    std::string kind;
    std::vector<std::pair<std::string, std::string>> fields;
  };
  const Noted all[] = {
      {"application",
       {{"start", "06:45"},
        {"end", "9:05"},
        {"area", "fairways 1-9"},
        {"turf", "hybrid bermudagrass"},
        {"target", "annual bluegrass"},
        {"stage", "2 leaves"},
        {"active", "prodiamine; 2,4-D"},
        {"group", "3; 4"},
        {"purpose", "Pre+Post"},
        {"split-part", "1"},
        {"watering-in", "0.25in"},
        {"watering-date", "2026-10-15"},
        {"applicator", "first crew"},
        {"license", "00417"},
        {"registration", "000-0123"},
        {"amount", "3 jugs"},
        {"volume", "one tank"},
        {"nozzle", "flat fan"},
        {"wind", "8mph"},
        {"wind-from", "NW"},
        {"air-temperature", "62F"},
        {"humidity", "55%"},
        {"soil-temperature", "65 F"},
        {"rain-after", "0mm"},
        {"re-entry", "when dry"},
        {"photo", "october/1.jpg"},
        {"notes", "look again"}}},
      {"count",
       {{"target", "Poa annua"},
        {"plots", "3"},
        {"plot-area", "1ft2"},
        {"count", "12; 0; 7"},
        {"counted", "NEW"},
        {"stage", "1-2 leaves"},
        {"area", "fairway 4"},
        {"notes", "after rain"}}},
      {"count", {{"target", "crabgrass"}, {"share", "4%"}, {"area", "rough"}}},
      {"reading",
       {{"time", "6:10"}, {"depth", "2in"}, {"temperature", "62F"}, {"area", "tee 2"}, {"notes", "sunny"}}},
      {"check", {{"state", "Semi-dormant"}, {"seen-by", "me"}, {"area", "7"}, {"notes", "n"}}},
      {"first-seen", {{"target", "poaan"}, {"seen-by", "me"}, {"area", "green 3"}, {"notes", "collar"}}},
      {"strip",
       {{"target", "poaan"},
        {"treated", "2; 1; 0"},
        {"untreated", "12; 8; 10"},
        {"treated-before", "9; 9; 6"},
        {"untreated-before", "8; 9; 9"},
        {"area", "fairway 4"},
        {"notes", "beside the tee"}}},
      {"strip",
       {{"target", "crabgrass"},
        {"treated-share", "4%"},
        {"untreated-share", "40%"},
        {"treated-share-before", "20%"},
        {"untreated-share-before", "20%"}}}};
  std::map<std::string, std::set<std::string>> tried;
  for (const Noted& noted : all) {
    CAPTURE(noted.kind);
    std::vector<std::string> words{noted.kind, "--by", "office"};
    std::string headings = "kind,by,site,date";
    std::string row = noted.kind + ",office,course,2026-10-14";
    for (const auto& [name, value] : noted.fields) {
      words = joined(words, {"--" + name, value});
      headings += "," + name;
      row += ",\"" + value + "\"";
      tried[noted.kind].insert(name);
    }
    const LogDesk typed;
    const LogDesk table;
    const Run added = typed.add("course", "2026-10-14", words);
    CAPTURE(added.err);
    REQUIRE(added.code == 0);
    const Run imported = table.log({"import", "-"}, headings + "\n" + row + "\n");
    CAPTURE(imported.err);
    REQUIRE(imported.code == 0);
    CHECK(table.log({"list"}).out == typed.log({"list"}).out);
    // And what goes out of one log comes into another as it was.
    const LogDesk again;
    REQUIRE(again.log({"import", "-"}, typed.log({"export"}).out).code == 0);
    CHECK(again.log({"list"}).out == typed.log({"list"}).out);
    CHECK(csv_rows(again.log({"export"}).out).back()[4] == csv_rows(typed.log({"export"}).out).back()[4]);
  }
  for (const records::RecordKind kind : records::all_kinds) {
    for (const records::Field& field : records::fields_of(kind)) {
      std::string name = field.name;
      std::replace(name.begin(), name.end(), '_', '-');
      CAPTURE(records::name(kind), name);
      CHECK((name == "site" || name == "date" || tried[std::string{records::name(kind)}].contains(name)));
    }
  }
}

TEST_CASE("an import says what log add says of the same entries, once each") {
  const LogDesk desk;
  const std::string table =
      "kind,site,date,target,count\ncount,course,2027-10-01,P0AAN,3\ncount,course,2027-10-02,P0AAN,4\n";
  const Run run = desk.log({"import", "-"}, table);
  CHECK(run.code == 0);
  CHECK(holds(run.err, "2027-10-01 is still to come"));
  CHECK(holds(run.err, "did you mean 'POAAN'?"));
  CHECK(run.err.find("did you mean") == run.err.rfind("did you mean"));
}

TEST_CASE("the help says at which hour a reading needs no correction") {
  const Desk desk;
  CHECK(holds(desk.run({"log", "--help"}).out, "11 a.m. at 2 in"));
}
