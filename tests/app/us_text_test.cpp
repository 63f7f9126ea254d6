// SPDX-License-Identifier: MIT
// No text answer in US units holds a metric value: every command that writes sentences or tables about a
// site, over the demo courses and eight measured stations, at several times of the year.
#include <catch2/catch.hpp>

#include "support/command_run.hpp"
#include "support/metric_words.hpp"
#include "support/record_files.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

using Words = std::vector<std::string>;

/// All grasses, so that every sentence has a chance to be written.
const Words all_grasses{"--target", "POAAN", "--target", "DIGIS", "--target", "DIGSA",
                        "--target", "ELEIN", "--target", "SETPU", "--target", "SETVI"};

/// Runs the words and looks at what they say on both streams.
void check_us_text(const Desk& desk, const Words& words) {
  std::string line;
  for (const std::string& word : words) line += word + " ";
  CAPTURE(line);
  const Run run = desk.run(words);
  CHECK(run.code <= 1);
  CHECK(!run.out.empty());
  CHECK(metric_value_in(run.out) == "");
  CHECK(metric_value_in(run.err) == "");
}

/// Notes of every kind at a site, in US units.
void note_everything(const Desk& desk, const std::string& site, const std::string& year) {
  const auto note = [&](const Words& what) {
    const Run run = desk.run(joined(joined({"log", "add"}, what), {"--site", site}));
    CAPTURE(run.err);
    REQUIRE(run.code == 0);
    CHECK(metric_value_in(run.out) == "");
    CHECK(metric_value_in(run.err) == "");
  };
  note({"reading", "--date", year + "-09-20", "--depth", "2in", "--temperature", "71F"});
  note({"reading", "--date", year + "-09-28", "--time", "06:10", "--depth", "4in", "--temperature", "68F"});
  note({"reading", "--date", year + "-10-01", "--depth", "2in", "--temperature", "104F"});
  note({"count", "--date", year + "-09-25", "--target", "POAAN", "--count", "6", "--count", "2",
        "--plot-area", "1ft2"});
  note({"count", "--date", year + "-09-30", "--target", "POAAN", "--count", "9"});
  note({"first-seen", "--date", year + "-09-14", "--target", "POAAN"});
  note({"application", "--date", year + "-10-05", "--group", "3", "--active", "prodiamine", "--purpose",
        "pre", "--watering-in", "0.5in", "--air-temperature", "70F", "--wind", "5mph"});
  note({"check", "--date", year + "-10-07", "--state", "green"});
}

/// The questions of a year about sites that `site` names.
void check_a_year(const Desk& desk, const Words& site, const std::string& year) {
  for (const std::string on : {"-02-15", "-04-01", "-09-15", "-10-12"}) {
    const Words at{"--on", year + on};
    check_us_text(desk, joined(joined(joined({"advise", "--details"}, site), at), all_grasses));
  }
  const Words late{"--on", year + "-10-12", "--units", "us"};
  check_us_text(desk, joined(joined({"advise"}, site), late));
  check_us_text(desk, joined(joined({"advise", "--plan", "12 weeks, contact"}, site), late));
  check_us_text(desk, joined(joined({"season"}, site), late));
  check_us_text(desk, joined(joined({"hindcast", "--earlier", "1"}, site), late));
  check_us_text(desk, joined(joined({"compare"}, site), late));
}

void check_station(const std::string& name, double latitude, double longitude) {
  CAPTURE(name);
  const Desk desk;
  const std::string id = "station";
  const Json site{{"id", id},
                  {"latitude", latitude},
                  {"longitude", longitude},
                  {"elevation_m", 150},
                  {"weather", {{{"file", reference_file(name).string()}}}}};
  const Words named{"--sites", desk.file("station.json", site.dump())};
  check_a_year(desk, named, "2020");
  check_us_text(desk, joined({"soil", "--fit", "--on", "2020-10-12"}, named));
  check_us_text(desk, joined({"soil", "--depth", "4in", "--on", "2020-10-12"}, named));
  note_everything(desk, id, "2020");
  check_a_year(desk, named, "2020");
  check_us_text(desk, {"log", "list"});
}

}  // namespace

TEST_CASE("what counts as a metric value in US text") {
  for (const char* metric :
       {"12 C", "at 5cm", "3 mm of rain", "12 m above", "0.5 C.", "soil C", "10.0 C d", "two meters"})
    CHECK(metric_value_in(metric) != "");
  for (const char* plain :
       {"12 Crabgrass", "5 more", "3 in", "10 mph", "Group C 3", "12 models", "May 5 matters"})
    CHECK(metric_value_in(plain) == "");
}

TEST_CASE("no text about a demo course holds a metric value in US units", "[statistics]") {
  const Desk desk;
  for (const std::string id : {"copper-heron", "millrace-nine", "saltmarsh-bell"}) {
    const Words named{"--sites", SOILCLOCK_SOURCE_DIR "/config/demo_sites.json", "--only", id};
    check_a_year(desk, named, "2026");
    check_us_text(desk, joined({"soil", "--fit", "--on", "2026-10-12"}, named));
    note_everything(desk, id, "2026");
    check_a_year(desk, named, "2026");
    check_us_text(desk, {"mix", "prodiamine", "foramsulfuron", "--site", id, "--date", "2026-10-14",
                         "--day-maximum", "52F", "--stage", "to_one_tiller", "--seed-on", "2027-03-15"});
  }
  check_us_text(desk, {"log", "list"});
  check_us_text(desk, {"mix", "3", "14", "simazine", "--day-maximum", "60F", "--failed", "9"});
}

TEST_CASE("no text about a measured station holds a metric value in US units", "[statistics]") {
  check_station("KY_Bowling_Green_21_NNE", 36.99, -86.23);
  check_station("LA_Lafayette_13_SE", 30.09, -91.87);
  check_station("NC_Durham_11_W", 35.97, -79.09);
  check_station("OR_Coos_Bay_8_SW", 43.27, -124.32);
  check_station("PA_Avondale_2_N", 39.86, -75.79);
  check_station("TN_Crossville_7_NW", 36.01, -85.13);
}

TEST_CASE("nor does any about two more measured stations", "[records][statistics]") {
  check_station("NH_Durham_2_N", 43.17, -70.93);
  check_station("AL_Selma_13_WNW", 32.46, -87.24);
}
