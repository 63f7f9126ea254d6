// SPDX-License-Identifier: MIT
// Strip checks in the log and beside what was expected.
#include <catch2/catch.hpp>
#include <sstream>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

class StripDesk : public Desk {
 public:
  StripDesk() {
    const Json site{{"id", "copper-heron"},
                    {"latitude", 35.6},
                    {"longitude", -83.1},
                    {"turf", {{"irrigated", true}}},
                    {"weather", {{{"file", sample("copper_heron.csv")}}}}};
    file("s.json", site.dump());
  }
  Run log(const std::vector<std::string>& words, const std::string& input = "") const {
    return run(joined(joined({"log"}, words), {"--records", path("log.db")}), input);
  }
  Run add(const std::string& kind, const std::string& date, const std::vector<std::string>& more) const {
    return log(joined({"add", kind, "--site", "copper-heron", "--date", date}, more));
  }
  Run advise(const std::vector<std::string>& more) const {
    return run(joined(
        {"advise", "--sites", path("s.json"), "--on", "2025-12-01", "--records", path("log.db")}, more));
  }
  /// The details from the notes on, on one line.
  std::string noted() const {
    const Run run = advise({"--details"});
    CAPTURE(run.err, run.out);
    REQUIRE(run.code == 0);
    const auto from = run.out.find("Noted this season");
    REQUIRE(from != std::string::npos);
    std::istringstream in{run.out.substr(from)};
    std::string words;
    for (std::string word; in >> word;) words += word + " ";
    return words;
  }
  /// The note of the strip in JSON.
  std::string strip_note() const {
    const Json answer = advise({"--format", "json"}).json();
    for (const Json& note : answer.at("sites")[0].at("targets")[0].at("notes")) {
      if (note.at("kind") == "strip") return note.at("text").get<std::string>();
    }
    return {};
  }
};

const std::vector<std::string> three_plots{"--target",    "POAAN", "--treated",   "2",  "--treated",   "1",
                                           "--treated",   "0",     "--untreated", "12", "--untreated", "8",
                                           "--untreated", "10"};

void check_strip_refused(const Run& run, const std::vector<std::string>& parts) {
  CAPTURE(run.err);
  CHECK(run.code == 2);
  CHECK(run.out.empty());
  for (const std::string& part : parts) CHECK(holds(run.err, part));
}

}  // namespace

TEST_CASE("a strip check is listed with the control it shows") {
  const StripDesk desk;
  // Means 1 and 10, by hand: 90 percent, 62 to 97; with 8 and 26/3 before: 1 - (1 / 8) (26 / 30) = 89.2.
  REQUIRE(desk.add("strip", "2025-11-20", three_plots).code == 0);
  CHECK(holds(desk.log({"list"}).out, "; control 90% (62 to 97%) by Abbott's formula\n"));
  REQUIRE(desk.log({"correct", "1", "--treated-before", "9; 9; 6", "--untreated-before", "8; 9; 9"}).code ==
          0);
  CHECK(holds(desk.log({"list"}).out, "; control 89% ("));
  CHECK(holds(desk.log({"list"}).out, "by Henderson and Tilton's formula\n"));
}

TEST_CASE("a strip check that shows nothing is refused, and said where it comes from a table") {
  const StripDesk desk;
  const auto add = [&](const std::vector<std::string>& more) {
    return desk.add("strip", "2025-11-20", joined({"--target", "POAAN"}, more));
  };
  check_strip_refused(add({"--treated", "0", "--untreated", "0"}),
                      {"nothing grew in the untreated strip", "plants in the untreated strip"});
  check_strip_refused(add({"--treated", "0"}), {"field 'untreated'", "missing"});
  check_strip_refused(add({}), {"neither counts nor cover"});
  const Run run = desk.log({"import", "-"},
                           "kind,site,date,target,treated,untreated\nstrip,course,2025-11-20,POAAN,3,0\n");
  CHECK(run.code == 0);
  CHECK(holds(run.err, "shows no control: nothing grew in the untreated strip"));
  CHECK(holds(desk.log({"list"}).out, "control not known: nothing grew"));
}

TEST_CASE("control in an untreated strip stands beside what was expected") {
  const StripDesk desk;
  REQUIRE(desk.add("strip", "2025-11-20", three_plots).code == 0);
  CHECK(holds(desk.noted(), "Nov 20: untreated strip: control 90% (62 to 97%) by Abbott's formula"));
  CHECK(holds(desk.strip_note(), "control 90%"));
  CHECK(!holds(desk.strip_note(), "expected"));  // nothing was put down
  const std::vector<std::string> pre{"--active", "prodiamine", "--purpose", "pre", "--watering-in", "6mm"};
  REQUIRE(desk.add("application", "2025-09-01", pre).code == 0);
  CHECK(holds(desk.noted(), "by Abbott's formula, "));
  const std::string before = desk.strip_note();
  CHECK(holds(before, "% expected ("));
  // An application after the check is none of its business.
  REQUIRE(desk.add("application", "2025-11-25", pre).code == 0);
  CHECK(desk.strip_note() == before);
}
