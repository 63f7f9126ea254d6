// SPDX-License-Identifier: MIT
// Which units an answer comes in when nobody says, and that US text holds no metric value.
#include <catch2/catch.hpp>
#include <regex>

#include "site/us_places.hpp"
#include "support/command_run.hpp"
#include "support/metric_words.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

struct Town {
  const char* name;
  double latitude;
  double longitude;
};

bool in_us(const Town& town, const char* zone = nullptr) {
  std::optional<TimeZone> known;
  if (zone != nullptr) known = TimeZone::named(zone).value();
  return in_united_states({town.latitude, town.longitude, {}}, known).value();
}

const Desk& us_desk() {
  static const Desk one;
  return one;
}

/// A year and a half of made-up weather with faults that are told in sentences, at a place in Tennessee.
std::string us_weather() {
  static const std::string path = [] {
    std::string text = made_up_weather(make_day(2025, 6, 1), 500);
    const auto exchange = [&](const std::string& day, const std::string& row) {
      const auto at = text.find(day);
      REQUIRE(at != std::string::npos);
      text.replace(at, text.find('\n', at) - at, day + row);
    };
    exchange("2026-07-02", ",20.0,99.0,0.0");
    exchange("2026-07-06", ",30.0,20.0,0.0");
    exchange("2026-07-12", ",20.0,30.0,900.0");
    return us_desk().file("course.csv", text);
  }();
  return path;
}

Run us_run(const std::vector<std::string>& words, const std::vector<std::string>& more = {}) {
  return us_desk().run(joined(with_place(joined(words, {"--weather", us_weather()})), more));
}

}  // namespace

TEST_CASE("towns of the United States are known from their neighbors across the boundary") {
  const Town home = GENERATE(values<Town>({
      {"Seattle", 47.61, -122.33},      {"Bellingham", 48.75, -122.48}, {"San Diego", 32.72, -117.16},
      {"Los Angeles", 34.05, -118.24},  {"Phoenix", 33.45, -112.07},    {"Tucson", 32.22, -110.97},
      {"San Antonio", 29.42, -98.49},   {"McAllen", 26.20, -98.23},     {"Houston", 29.76, -95.37},
      {"Miami", 25.76, -80.19},         {"Key West", 24.56, -81.78},    {"Atlanta", 33.75, -84.39},
      {"Hatteras", 35.25, -75.53},      {"New York", 40.71, -74.01},    {"Cape Cod", 41.67, -69.96},
      {"Bangor", 44.80, -68.77},        {"Burlington", 44.48, -73.21},  {"Buffalo", 42.89, -78.85},
      {"Rochester", 43.16, -77.61},     {"Cleveland", 41.50, -81.69},   {"Detroit", 42.33, -83.05},
      {"Traverse City", 44.76, -85.62}, {"Duluth", 46.79, -92.10},      {"Minneapolis", 44.98, -93.27},
      {"Denver", 39.74, -104.99},       {"Anchorage", 61.22, -149.90},  {"Juneau", 58.30, -134.42},
      {"Honolulu", 21.31, -157.86},
  }));
  CAPTURE(home.name);
  CHECK(in_us(home));
}

TEST_CASE("towns of other countries are not taken for American ones") {
  const Town abroad = GENERATE(values<Town>({
      {"Toronto", 43.65, -79.38},        {"Vancouver", 49.25, -123.12},  {"Victoria", 48.43, -123.37},
      {"Windsor", 42.30, -83.02},        {"Sarnia", 42.97, -82.40},      {"London, Ontario", 42.98, -81.25},
      {"Kingston", 44.23, -76.49},       {"Ottawa", 45.42, -75.70},      {"Montreal", 45.50, -73.57},
      {"Sherbrooke", 45.40, -71.89},     {"Fredericton", 45.96, -66.64}, {"Yarmouth", 43.84, -66.12},
      {"Thunder Bay", 48.38, -89.25},    {"Winnipeg", 49.90, -97.14},    {"Whitehorse", 60.72, -135.06},
      {"Tijuana", 32.52, -117.02},       {"Mexicali", 32.65, -115.47},   {"Hermosillo", 29.07, -110.96},
      {"Ciudad Juarez", 31.69, -106.42}, {"Reynosa", 26.08, -98.29},     {"Monterrey", 25.67, -100.31},
      {"Havana", 23.13, -82.38},         {"Nassau", 25.05, -77.35},      {"Dublin", 53.35, -6.26},
  }));
  CAPTURE(abroad.name);
  CHECK(!in_us(abroad));
}

TEST_CASE("a Canadian or Mexican time zone says no wherever the boxes put the place") {
  const Town detroit{"Detroit", 42.33, -83.05};
  CHECK(in_us(detroit));
  CHECK(in_us(detroit, "America/Detroit"));
  CHECK(!in_us(detroit, "America/Toronto"));
  CHECK(!in_us(detroit, "Canada/Eastern"));
  CHECK(!in_us({"Laredo", 27.55, -99.48}, "America/Monterrey"));
}

TEST_CASE("a site in the United States is answered in US units unless the user says otherwise") {
  CHECK(us_run({"advise"}, {"--format", "json"}).json().at("sites")[0].at("facts").at("units") == "us");
  CHECK(us_run({"advise"}, {"--format", "json", "--units", "metric"})
            .json()
            .at("sites")[0]
            .at("facts")
            .at("units") == "metric");
  CHECK(holds(us_run({"season"}).out, "soil F"));
  CHECK(holds(us_run({"soil"}, {"--from", "2026-10-01"}).out, "air F"));
  CHECK(holds(us_run({"degree-days"}, {"--from", "2026-10-01"}).out, "F degree-days"));
  const Run dublin =
      us_desk().run({"soil", "--weather", us_weather(), "--latitude", "53.35", "--longitude", "-6.26"});
  CHECK(holds(dublin.out, "air C"));
  // The site file's own word stands above the place, and --units above both.
  const std::string line = site_line("a", us_weather());
  const auto units = [&](const std::string& site, const std::vector<std::string>& more) {
    const Run run = us_desk().run(
        joined({"advise", "--sites", us_desk().file("s.json", site), "--format", "json"}, more));
    CAPTURE(run.err);
    REQUIRE(run.code == 0);
    return run.json().at("sites")[0].at("facts").at("units").get<std::string>();
  };
  const std::string metric = exchanged(line, R"("id":"a")", R"("id":"a","units":"metric")");
  CHECK(units(line, {}) == "us");
  CHECK(units(metric, {}) == "metric");
  CHECK(units(metric, {"--units", "us"}) == "us");
}

TEST_CASE("US text holds no metric value, whatever is asked") {
  const std::vector<std::vector<std::string>> questions{
      {"advise", "--details", "--target", "POAAN", "--target", "DIGIS"},
      {"season"},
      {"soil", "--from", "2026-09-01"},
      {"degree-days", "--from", "2026-09-01"},
      {"inspect", us_weather(), "--units", "us", "--days"},
  };
  for (const auto& words : questions) {
    const Run run = words.front() == "inspect" ? us_desk().run(words) : us_run(words);
    CAPTURE(words.front(), run.err);
    REQUIRE(run.code == 0);
    CHECK(metric_value_in(run.out).empty());
  }
  // The faults of the file are told; without them the check above would see nothing of theirs.
  const Run inspected = us_desk().run({"inspect", us_weather(), "--units", "us"});
  for (const char* part : {"210.2 F", "86.0 F", "35.43 in"}) CHECK(holds(inspected.out, part));
}

TEST_CASE("every demo course is told in US units, days ahead, soil and rain included") {
  const std::string sites = std::string{SOILCLOCK_SOURCE_DIR} + "/config/demo_sites.json";
  const Run run = us_desk().run({"advise", "--sites", sites, "--on", "2026-10-15", "--details"});
  REQUIRE(run.code == 0);
  CHECK(metric_value_in(run.out).empty());
  CHECK(holds(run.out, "Soil at 2 in averaged"));
  CHECK(holds(run.out, "in of rain on the day"));
  CHECK(!std::regex_search(run.out, std::regex{"[0-9] %"}));
}

TEST_CASE("a hindcast of a US site names its level in Fahrenheit and its depth in inches") {
  const std::string sites = std::string{SOILCLOCK_SOURCE_DIR} + "/config/demo_sites.json";
  const Run run = us_desk().run({"hindcast", "--sites", sites, "--only", "copper-heron", "--on", "2026-10-15",
                                 "--event", "soil-crossing", "--issued", "09-15"});
  REQUIRE(run.code == 0);
  CHECK(holds(run.out, "soil at 2 in falls to 66.0 F"));
  CHECK(metric_value_in(run.out).empty());
}

TEST_CASE("the log gives back the units that were noted") {
  const Desk own;
  REQUIRE(own.run({"log", "add", "reading", "--site", "a", "--date", "2026-10-12", "--depth", "2in",
                   "--temperature", "62F"})
              .code == 0);
  const Run listed = own.run({"log", "list"});
  CHECK(holds(listed.out, "depth 2 in; temperature 62 F"));
  CHECK(metric_value_in(listed.out).empty());
}

TEST_CASE("--site, typed from the log's habit, is met with --only and --sites") {
  const Run run = us_desk().run({"advise", "--site", "copper-heron"});
  CHECK(run.code == 2);
  CHECK(holds(run.err, "--only"));
  CHECK(holds(run.err, "--sites"));
}
