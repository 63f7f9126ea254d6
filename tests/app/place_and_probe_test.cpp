// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "support/command_run.hpp"
#include "support/record_files.hpp"

using namespace soilclock;
using namespace soilclock::tests;

TEST_CASE("without a place a file that does not say one is refused, and no place is invented") {
  const Desk desk;
  const std::string file = desk.file("course.csv", made_up_weather(make_day(2025, 6, 1), 501));
  const Run run = desk.run({"advise", "--weather", file, "--format", "json"});
  CHECK(run.code == 2);
  CHECK(run.problems() == 1);
  CHECK(holds(run.err, "--latitude D --longitude D"));
  const Json site = run.json().at("sites")[0];
  CHECK(site.at("latitude").is_null());
  CHECK(site.at("longitude").is_null());
  // What needs no place is answered all the same.
  CHECK(desk.run({"degree-days", "--weather", file}).code == 0);
  const Run soil = desk.run({"soil", "--weather", file, "--format", "json"});
  CHECK(soil.code == 0);
  CHECK(holds(soil.json().at("remarks").dump(), "latitude"));
}

TEST_CASE("a reference station's file says its own place") {
  const Desk desk;
  const std::string file = reference_file("TN_Crossville_7_NW").string();
  const Run run = desk.run({"advise", "--weather", file, "--on", "2020-10-20", "--format", "json"});
  CAPTURE(run.err);
  REQUIRE(run.code == 0);
  const Json site = run.json().at("sites")[0];
  CHECK(site.at("latitude").get<double>() == Approx(36.01).margin(0.02));
  CHECK(site.at("longitude").get<double>() == Approx(-85.13).margin(0.02));
  CHECK(site.at("soil").at("origin") == "measured");
}

TEST_CASE("the topsoil of a single site is chosen by its texture, and sand dries sooner than loam") {
  const Desk desk;
  const auto large_crabgrass = [&](const std::vector<std::string>& more) {
    return desk.run(
        joined({"advise", "--weather", desk.sample("copper_heron.csv"), "--latitude", "35.6", "--longitude",
                "-83.1", "--irrigated", "no", "--target", "DIGSA", "--on", "2026-05-01", "--format", "json"},
               more));
  };
  const Run unsaid = large_crabgrass({});
  CHECK(unsaid.code == 0);
  CHECK(large_crabgrass({"--texture", "loam"}).out == unsaid.out);
  CHECK(large_crabgrass({"--texture", "sand"}).out != unsaid.out);
  const Run misspelt = large_crabgrass({"--texture", "sandi loam"});
  CHECK(misspelt.code == 2);
  CHECK(holds(misspelt.err, "sandy loam"));
  const Run beside = desk.run({"advise", "--sites", desk.sample("copper_heron.csv"), "--texture", "sand"});
  CHECK(beside.code == 2);
  CHECK(holds(beside.err, "--sites and --texture cannot be used together"));
}

TEST_CASE("a probe read at a clock hour moves the soil, and the hour matters") {
  const Desk desk;
  const std::string weather = desk.file("course.csv", made_up_weather(make_day(2025, 6, 1), 501));
  const auto soil = [&](const std::string& probe) {
    std::vector<std::string> words =
        with_place({"advise", "--weather", weather, "--format", "json", "--name", "a"});
    if (!probe.empty()) words = joined(words, {"--probe", desk.file("probe.csv", probe)});
    const Run run = desk.run(words);
    CAPTURE(run.err);
    REQUIRE(run.code == 0);
    return run.json().at("sites")[0];
  };
  const auto read_at = [](const std::string& hour) {
    std::string text = "Date,Time,Soil 5 cm (C)\n";
    for (const int day : {1, 4, 7, 10, 13})
      text += "2026-10-" + std::string{day < 10 ? "0" : ""} + std::to_string(day) + "," + hour + ",24.0\n";
    return text;
  };
  const Json without = soil("");
  const Json morning = soil(read_at("07:00"));
  const Json afternoon = soil(read_at("15:00"));
  CHECK(without.at("soil").at("origin") == "estimated");
  CHECK(morning.at("soil").at("origin") == "mixed");
  CHECK(morning.at("soil").at("error_c").get<double>() < without.at("soil").at("error_c").get<double>());
  const auto emerged = [](const Json& site) {
    return site.at("targets")[0].at("emerged").at("percent").get<double>();
  };
  CAPTURE(emerged(without), emerged(afternoon), emerged(morning));
  // Warmer soil than was thought puts emergence in autumn off; 24 C in the cool of the morning means a warmer
  // day than 24 C in the heat of the afternoon.
  CHECK(emerged(morning) < emerged(afternoon));
  CHECK(emerged(afternoon) < emerged(without));
}

TEST_CASE("columns and units can be named where the file does not say them") {
  const Desk desk;
  std::string table = made_up_weather(make_day(2025, 6, 1), 501);
  const std::string named = desk.file("named.csv", table);
  const std::string bare = desk.file("bare.csv", table.substr(table.find('\n') + 1));
  CHECK(desk.run({"inspect", bare}).code == 3);
  const std::vector<std::string> words{"--columns", "date,tmin,tmax,rain", "--units-in", "C,mm"};
  REQUIRE(desk.run(joined({"inspect", bare}, words)).code == 0);
  const auto targets = [&](const std::string& file, const std::vector<std::string>& more) {
    return desk.run(joined(with_place({"advise", "--weather", file, "--format", "json"}), more))
        .json()
        .at("sites")[0]
        .at("targets");
  };
  CHECK(targets(bare, words) == targets(named, {}));
  const Run wrong = desk.run({"inspect", bare, "--columns", "date,low,high,rain"});
  CHECK(wrong.problems() == 1);
  CHECK(holds(wrong.err, "unknown quantity"));
  CHECK(holds(desk.run({"inspect", named, "--units-in", "Fahrenheit"}).err, "--units-in F,in"));
}
