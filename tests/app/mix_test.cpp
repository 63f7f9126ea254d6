// SPDX-License-Identifier: MIT
// The plan of a treatment as typed on the command line, with the site's noted treatments behind it. Points
// and steps are those of the score sheet (judgment of the trade); that mixing beats single groups: Evans et
// al. 2016, Pest Management Science 72:74-80.
#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app/site_requests.hpp"
#include "support/command_run.hpp"
#include "support/temporary_folder.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using nlohmann::json;

namespace {

Run asked(const std::vector<std::string>& words) { return Desk{}.run(words); }

using Words = std::vector<std::string>;

Words operator+(Words words, const Words& more) {
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

json document(const Words& words) {
  const Run answer = asked(words + Words{"--format", "json"});
  INFO(answer.err);
  REQUIRE(answer.code == 0);
  return json::parse(answer.out);
}

/// A records file with applications of site "copper-heron" noted in it.
class Notes {
 public:
  Notes() = default;
  /// Group 29 in October of each year.
  explicit Notes(const Words& years) {
    for (const std::string& year : years) add(year + "-10-01", {"--group", "29"});
  }
  void add(const std::string& date, const Words& fields, const std::string& site = "copper-heron") {
    const Run noted = asked(
        Words{"log", "add", "application", "--site", site, "--date", date, "--records", file()} + fields);
    INFO(noted.err);
    REQUIRE(noted.code == 0);
  }
  std::string file() const { return folder_.file("records.db"); }
  Words site() const { return {"--site", "copper-heron", "--records", file()}; }

 private:
  TemporaryFolder folder_;
};

/// Everything known, three seasons without any of the groups in the plans below.
const Words all_known{"--date",
                      "2026-10-14",
                      "--stage",
                      "to_one_tiller",
                      "--day-maximum",
                      "72F",
                      "--timing",
                      "inside",
                      "--escapes-planned",
                      "yes",
                      "--practices",
                      "3",
                      "--works",
                      "2",
                      "--works",
                      "3",
                      "--works",
                      "5",
                      "--works",
                      "14",
                      "--history-complete",
                      "3"};

const Words quiet_years{"2023", "2024", "2025"};

double points(const json& answer, std::size_t line, const std::string& end) {
  return answer["score"]["lines"][line][end];
}

bool holds(const json& texts, const std::string& part) {
  for (const auto& text : texts) {
    if ((text.is_string() ? text : text["text"]).get<std::string>().find(part) != std::string::npos)
      return true;
  }
  return false;
}

constexpr std::size_t sole_line = 2;

}  // namespace

TEST_CASE("mix: three effective groups score above two and two above one") {
  const Notes notes{quiet_years};
  const auto score = [&](const Words& entries) {
    const json answer = document(Words{"mix"} + entries + notes.site() + all_known);
    CHECK(answer["score"]["least"] == answer["score"]["most"]);
    return answer["score"]["least"].get<double>();
  };
  const double one = score({"simazine"});
  const double two = score({"simazine", "foramsulfuron"});
  const double three = score({"simazine", "foramsulfuron", "flumioxazin"});
  CHECK(one < two);
  CHECK(two < three);
}

TEST_CASE("mix: groups on plants up and on plants to come are told apart in one plain sentence") {
  const Notes notes{quiet_years};
  const Run answer = asked(Words{"mix", "prodiamine", "foramsulfuron"} + notes.site() + all_known);
  CHECK(answer.code == 0);
  const std::string start =
      "copper-heron, plan for Oct 14, 2026: 1 effective group on plants that are up, 1 on plants to come;";
  CHECK(answer.out.substr(0, start.size()) == start);
  const json shown = document(Words{"mix", "prodiamine", "foramsulfuron"} + notes.site() + all_known);
  CHECK(shown["format"] == "soilclock-mix");
  CHECK(shown["version"] == 1);
  CHECK(shown["groups"][0]["group"] == 2);
  CHECK(shown["groups"][0]["to_come"]["most"] == 0.0);
  CHECK(shown["groups"][1]["group"] == 3);
  CHECK(shown["groups"][1]["emerged"]["most"] == 0.0);
}

TEST_CASE("mix: one group alone again after last season is flagged and loses the points for it") {
  Notes notes;
  notes.add("2025-09-10", {"--active", "pendimethalin"});
  const json answer = document(Words{"mix", "prodiamine"} + notes.site() + all_known);
  CHECK(holds(answer["flags"], "group 3 was used last season"));
  CHECK(points(answer, sole_line, "most") == 0.0);
  CHECK(answer["repeats"] == json::parse(R"([{"group": 3, "seasons_ago": [1]}])"));
  CHECK(answer["history"]["sprays"][0]["date"] == "2025-09-10");

  const json mixed = document(Words{"mix", "prodiamine", "simazine"} + notes.site() + all_known);
  CHECK(points(mixed, sole_line, "least") == 15.0);
}

TEST_CASE("mix: seasons turn at midsummer, in the south at the northern midwinter") {
  Notes notes;
  notes.add("2026-01-20", {"--group", "3"});  // north: last season, five months before midsummer
  const json north = document(Words{"mix", "3", "--date", "2026-10-14"} + notes.site());
  CHECK(north["history"]["season_start"] == "2026-06-21");
  CHECK(north["history"]["sprays"][0]["seasons_ago"] == 1);
  const json south =
      document(Words{"mix", "3", "--date", "2026-10-14", "--latitude", "-37.8"} + notes.site());
  CHECK(south["history"]["season_start"] == "2025-12-21");
  CHECK(south["history"]["sprays"][0]["seasons_ago"] == 0);
  CHECK(south["repeats"].empty());
}

TEST_CASE("mix: a history nobody knows gives a range, and knowing it only narrows the range") {
  const Words plan{"mix", "prodiamine", "--date", "2026-10-14"};
  const json unknown = document(plan);
  CHECK(unknown["site"].is_null());
  CHECK(points(unknown, sole_line, "least") == 0.0);
  CHECK(points(unknown, sole_line, "most") == 15.0);
  CHECK(holds(unknown["flags"], "earlier seasons are not known"));
  CHECK(asked(plan).out.find("not known: no site was named") != std::string::npos);

  const Notes notes{quiet_years};
  const json known = document(plan + notes.site());  // three seasons in a row with a note
  CHECK(known["history"]["seasons_known"] == 3);
  CHECK(points(known, sole_line, "least") == 15.0);
  CHECK(unknown["score"]["least"] <= known["score"]["least"]);
  CHECK(known["score"]["most"] <= unknown["score"]["most"]);
}

TEST_CASE("mix: a season with a treatment of unknown groups stays unknown") {
  Notes notes{quiet_years};
  notes.add("2024-11-20", {"--active", "something nobody listed"});
  const json answer =
      document(Words{"mix", "prodiamine", "--date", "2026-10-14", "--history-complete", "3"} + notes.site());
  CHECK(answer["history"]["seasons_known"] == 1);
  CHECK(points(answer, sole_line, "least") == 8.0);  // group 3 alone two seasons ago cannot be ruled out
  CHECK(holds(answer["remarks"], "2024-11-20"));
}

TEST_CASE("mix: what is noted on the day of the plan or later is not its history") {
  Notes notes;
  notes.add("2026-10-14", {"--group", "3"});
  notes.add("2027-10-14", {"--group", "3"});
  const json answer = document(Words{"mix", "3", "--date", "2026-10-14"} + notes.site());
  CHECK(answer["history"]["sprays"].empty());
}

TEST_CASE("mix: actives of one group count once") {
  // Cross-resistance of prodiamine and pronamide: Osburn et al. 2024.
  const json answer = document(Words{"mix", "prodiamine", "pronamide", "group 3"});
  CHECK(answer["groups"].size() == 1);
  CHECK(answer["effective_groups"]["to_come"]["most"] == 1.0);
  CHECK(holds(answer["flags"], "count once"));
}

TEST_CASE("mix: an unknown active is refused with the nearest name") {
  const Run answer = asked({"mix", "prodiamin"});
  CHECK(answer.code == 2);
  CHECK(answer.out.empty());
  CHECK(answer.err.find("did you mean 'prodiamine'?") != std::string::npos);
}

TEST_CASE("mix: an old group number is read as its present one and that is said") {
  const Run answer = asked({"mix", "group 7", "--date", "2026-10-14"});
  CHECK(answer.code == 0);
  CHECK(answer.err.find("group 7 is an old number; it is read as group 5") != std::string::npos);
  const json shown = document({"mix", "8"});
  CHECK(shown["entries"] == json::parse(R"([{"entry": "group 15", "group": 15}])"));
  CHECK(holds(shown["remarks"], "group 8 is an old number"));
}

TEST_CASE("mix: what is known of groups changes what they count for") {
  const auto up = [](const Words& known) {
    return document(Words{"mix", "glyphosate", "--stage", "leaves_1_3", "--day-maximum", "22C"} +
                    known)["effective_groups"]["emerged"];
  };
  CHECK(up({"--works", "9"}) == json::parse(R"({"least": 1.0, "most": 1.0})"));
  CHECK(up({"--region-resistant", "9"}) == json::parse(R"({"least": 0.5, "most": 0.5})"));
  CHECK(up({"--failed", "group 9"}) == json::parse(R"({"least": 0.0, "most": 0.0})"));
  const Run both = asked({"mix", "glyphosate", "--failed", "9", "--works", "glyphosate"});
  CHECK(both.code == 2);
  CHECK(both.err.find("two different things are said of group 9") != std::string::npos);
}

TEST_CASE("mix: seed within the usual interval is a warning that no score takes away") {
  const Words plan{"mix",    "prodiamine", "simazine",  "foramsulfuron",
                   "--date", "2026-09-01", "--seed-on", "2026-10-01"};
  const Run answer = asked(plan);
  CHECK(answer.code == 0);
  CHECK(answer.out.find("Stop, seed is at risk: prodiamine") != std::string::npos);
  const json shown = document(plan);
  bool hard = false;
  for (const auto& warning : shown["seeding"])
    hard = hard || (warning["entry"] == "prodiamine" && warning["risk"] == "hard");
  CHECK(hard);
}

TEST_CASE("mix: no active outside the plan is ever named") {
  Notes notes;
  notes.add("2025-10-01", {"--active", "prodiamine"});
  const auto catalogue = app::load_models({}, {});
  REQUIRE(catalogue);
  for (const std::string form : {"text", "json"}) {
    const Run answer =
        asked(Words{"mix", "3", "14", "29", "--seed-on", "2026-12-01", "--format", form} + notes.site());
    CHECK(answer.code == 0);
    for (const std::string& name : catalogue->actives.names()) {
      CAPTURE(name);
      CHECK(answer.out.find(name) == std::string::npos);
    }
  }
}

TEST_CASE("mix: a site without notes is said, with the name that may have been meant") {
  Notes notes;
  notes.add("2025-10-01", {"--group", "3"});
  const Run answer = asked({"mix", "3", "--site", "coper-heron", "--records", notes.file()});
  CHECK(answer.code == 0);
  CHECK(answer.err.find("did you mean 'copper-heron'?") != std::string::npos);
  CHECK(answer.out.find("0 seasons back") != std::string::npos);
}

TEST_CASE("mix: wrong words are refused with one line that says what was expected") {
  const std::vector<std::pair<Words, std::string>> wrong{
      {{"mix"}, "the plan is empty"},
      {{"mix", "35"}, "a number from 0 to 34"},
      {{"mix", "3.5"}, "a number from 0 to 34"},
      {{"mix", "-1"}, ""},
      {{"mix", ""}, ""},
      {{"mix", "3", "--date", "14.10.2026"}, "--date is not a date"},
      {{"mix", "3", "--seed-on", "2026-02-30"}, "--seed-on is not a date"},
      {{"mix", "3", "--day-maximum", "60"}, "--day-maximum"},
      {{"mix", "3", "--stage", "old"}, "--stage"},
      {{"mix", "3", "--timing", "soon"}, "--timing"},
      {{"mix", "3", "--practices", "6"}, "0 to 5"},
      {{"mix", "3", "--history-complete", "2"}, "--site"},
      {{"mix", "3", "--site", "x", "--history-complete", "-1"}, "0 to 50"},
      {{"mix", "3", "--records", "x.db"}, "--site"},
      {{"mix", "3", "--latitude", "120"}, "-90 to 90"},
      {{"mix", "3", "--failed", "glyfosate"}, "did you mean 'glyphosate'?"},
      {{"mix", "3", "--site", "x", "--records", "/nowhere/records.db"}, ""},
  };
  for (const auto& [words, part] : wrong) {
    const Run answer = asked(words);
    CAPTURE(words, answer.err);
    CHECK(answer.code == 2);
    CHECK(answer.out.empty());
    CHECK(answer.err.find(part) != std::string::npos);
    CHECK(std::count(answer.err.begin(), answer.err.end(), '\n') == 1);
  }
}
