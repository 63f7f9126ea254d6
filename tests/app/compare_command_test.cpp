// SPDX-License-Identifier: MIT
// `compare`: its three forms say the same, its handouts say it too, and a site that fails is one line.
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "core/dates.hpp"
#include "support/command_run.hpp"
#include "support/metric_words.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

const std::vector<std::string> demo{"--sites", SOILCLOCK_SOURCE_DIR "/config/demo_sites.json",
                                    "--only",  "copper-heron",
                                    "--on",    "2026-10-15"};

std::string shown(const Json& day) {
  return day.is_null() ? "-" : short_date(*parse_iso_day(day.get<std::string>()));
}

std::string text_of(const std::string& path) {
  std::ifstream in{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, {}};
}

}  // namespace

TEST_CASE("the text, the CSV and the handout hold the dates of the JSON") {
  const Desk desk;
  const Json target = desk.run(joined(joined({"compare"}, demo), {"--format", "json"}))
                          .json()
                          .at("sites")[0]
                          .at("targets")[0];
  const std::string text = desk.run(joined({"compare"}, demo)).out;
  const std::string csv = desk.run(joined(joined({"compare"}, demo), {"--format", "csv"})).out;
  const Run pages =
      desk.run(joined(joined({"report"}, demo), {"--handouts", "--output", desk.path("pages")}));
  CHECK(pages.code == 0);
  const std::string page = text_of(desk.path("pages/copper-heron-POAAN-handout.html"));
  REQUIRE(target.at("seasons").size() == 13);
  for (const Json& row : target.at("seasons")) {
    const std::string year = row.at("label");
    INFO(year);
    const Json& season = row.at("season");
    for (const Json& share : season.at("up")) {
      const std::string item = std::to_string(share.at("percent").get<int>()) + "_percent_up";
      const std::string value = share.at("date").is_null() ? "" : share.at("date");
      CHECK(holds(csv, "copper-heron,POAAN,seasons," + year + "," + item + "," + value + "\n"));
      if (item != "5_percent_up" && item != "50_percent_up") continue;
      CHECK(holds(text, shown(share.at("date"))));
      CHECK(holds(page, ">" + shown(share.at("date")) + "<"));
    }
    CHECK(holds(page, ">" + shown(season.at("best_week")) + "<"));
  }
  for (const Json& one : target.at("what_ifs").at("cases")) {
    CHECK(holds(text, one.at("title").get<std::string>().substr(0, 42)));
    CHECK(holds(page, shown(one.at("half_up").at("date"))));
    CHECK(holds(csv, "what-ifs," + one.at("id").get<std::string>() + ",half_up_shift_days," +
                         std::to_string(one.at("half_up_shift_days").get<int>()) + "\n"));
  }
  CHECK(holds(text, target.at("finding").get<std::string>().substr(0, 40)));
  CHECK(holds(page, target.at("finding").get<std::string>()));
  CHECK(metric_value_in(text) == "");
}

TEST_CASE("several courses stand one above another, and one that fails is one line") {
  const Desk desk;
  const std::string good = desk.file("good.csv", made_up_weather(make_day(2023, 6, 1), 1230));
  const std::string sites =
      desk.file("s.json", "[" + site_line("north", good) + "," + site_line("south", good) + "," +
                              site_line("lost", desk.path("absent.csv")) + "]");
  const Run run = desk.run({"compare", "--sites", sites, "--on", "2026-10-10"});
  CHECK(run.code == 1);
  CHECK(holds(run.out, "\nannual bluegrass "));
  CHECK(holds(run.out, "lost: "));
  const Run pages = desk.run(
      {"report", "--sites", sites, "--on", "2026-10-10", "--handouts", "--output", desk.path("pages")});
  CHECK(pages.code == 1);
  for (const char* file :
       {"north-POAAN-handout.html", "south-POAAN-handout.html", "courses-POAAN-handout.html"}) {
    INFO(file);
    CHECK(std::filesystem::exists(desk.path("pages/" + std::string{file})));
  }
  CHECK(!std::filesystem::exists(desk.path("pages/lost-POAAN-handout.html")));
}

TEST_CASE("where no single wave can be named, that is said instead of a table") {
  const Desk desk;
  const std::vector<std::string> words{
      "compare", "--weather",
      SOILCLOCK_SOURCE_DIR "/tests/weather_records/CRND0103-2020-OR_Coos_Bay_8_SW.txt", "--on", "2020-10-20"};
  const Run run = desk.run(words);
  CHECK(run.code == 0);
  CHECK(holds(run.out, "annual bluegrass: nothing to compare. No single week stands out"));
  const Json site = desk.run(joined(words, {"--format", "json"})).json().at("sites")[0];
  CHECK(site.at("targets").empty());
  CHECK(site.at("not_compared")[0].at("target") == "POAAN");
}

TEST_CASE("a cell that a spreadsheet would run as a formula is marked as text") {
  const Desk desk;
  const std::string good = desk.file("good.csv", made_up_weather(make_day(2025, 6, 1), 501));
  const std::vector<std::string> words{"--weather",   good,         "--latitude", "35.6",
                                       "--longitude", "-83.1",      "--name",     "=1+1",
                                       "--on",        "2026-10-10", "--format",   "csv"};
  for (const char* command : {"advise", "season", "compare", "hindcast"}) {
    INFO(command);
    const Run run = desk.run(joined({command}, words));
    CHECK(!holds(run.out, "\n=1"));
    CHECK(!holds(run.out, ",=1"));
  }
  CHECK(holds(desk.run(joined({"advise"}, words)).out, ",'=1+1,"));
}
