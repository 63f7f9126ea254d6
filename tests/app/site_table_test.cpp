// SPDX-License-Identifier: MIT
// Sites as a table mean what a site file means, and are refused as strictly.
#include "app/site_table.hpp"

#include <catch2/catch.hpp>

#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::app;
using namespace soilclock::tests;

namespace {

const std::string heads = "id,name,latitude,longitude,weather,targets,turf,irrigated,plan\n";

Problem refused(const std::string& text) {
  const auto sites = read_site_table(text, "courses.csv", "");
  REQUIRE(!sites);
  return sites.error();
}

}  // namespace

TEST_CASE("a table of sites answers as the site file with the same words") {
  const Desk desk;
  const std::string weather = desk.sample("copper_heron.csv");
  const std::string forecast = desk.sample("copper_heron_forecast.csv");
  const std::string table = desk.file("courses.csv",
                                      "\xEF\xBB\xBFid,Name,latitude,longitude,elevation_m,group,weather,"
                                      "forecast,targets,turf,irrigated,texture,plan\r\n"
                                      "north,\"North, upper nine\",35.6,-83.1,310,route 1," +
                                          weather + "," + forecast +
                                          ",POAAN; DIGIS,hybrid bermudagrass,yes,,\"16 weeks, contact\"\r\n" +
                                          "south,,36.1,-83.4,,," + weather + ",,DIGSA,,no,sand,\r\n");
  const std::string file = desk.file(
      "courses.json",
      R"([{"id":"north","name":"North, upper nine","latitude":35.6,"longitude":-83.1,"elevation_m":310,"group":"route 1",)"
      R"("weather":[{"file":")" +
          weather + R"("},{"file":")" + forecast + R"(","role":"forecast"}],"targets":["POAAN","DIGIS"],)" +
          R"("turf":{"species":"hybrid bermudagrass","irrigated":true},"plan":{"residual_weeks":16,"foliar":"contact"}},)" +
          R"({"id":"south","latitude":36.1,"longitude":-83.4,"weather":[{"file":")" + weather +
          R"("}],"targets":["DIGSA"],"turf":{"irrigated":false},"soil":{"texture":"sand"}}])");
  const auto asked = [&](const std::string& sites) {
    return desk.run({"advise", "--sites", sites, "--on", "2026-10-15", "--format", "json"});
  };
  const Run by_table = asked(table);
  CHECK(by_table.code == 0);
  CHECK(by_table.out == asked(file).out);
}

TEST_CASE("a service, several files and a folder of their own are taken from a table") {
  const auto sites = read_site_table(
      "id,latitude,longitude,weather,probe\na,35,-83,one.csv; two.csv; service:ncei:USW00014821,p.csv\n",
      "x/courses.csv", "x");
  REQUIRE(sites);
  REQUIRE(sites->size() == 1);
  const Site& site = sites->front();
  REQUIRE(site.weather.size() == 2);
  CHECK(site.weather[1].path == "x/two.csv");
  REQUIRE(site.services.size() == 1);
  CHECK(site.services[0].id == "ncei");
  CHECK(site.services[0].station == "USW00014821");
  CHECK(site.probe.at(0).path == "x/p.csv");
}

TEST_CASE("what is wrong in a table is said at its line and cell") {
  struct Case {
    std::string rows;
    std::optional<int> line;
    std::optional<int> column;
    std::string says;
  };
  const std::string good = "a,A,35,-83,w.csv,POAAN,,yes,\n";
  const std::vector<Case> cases{{"a,A,95,-83,w.csv,,,,\n", 2, 3, "90"},
                                {good + "b,B,north,-83,w.csv,,,,\n", 3, 3, "type"},
                                {good + "\"b\",\"two\nlines\",35,oops,w.csv,,,,\n", 4, 4, "type"},
                                {good + "a,B,35,-83,w.csv,,,,\n", 3, 1, "same id"},
                                {"a,A,35,-83,,,,,\n", 2, 5, "weather"},
                                {"a,A,35,-83,w.csv,,,perhaps,\n", 2, 7, "type"},
                                {"a,A,35,-83,w.csv,,,,\"8 weeks, spray it\"\n", 2, 9, "--plan"},
                                {"a,A,35,-83,w.csv,,,\n", 2, {}, "another number of cells"}};
  for (const Case& wrong : cases) {
    CAPTURE(wrong.rows);
    const Problem problem = refused(heads + wrong.rows);
    CAPTURE(describe(problem));
    CHECK(problem.family == Family::request);
    CHECK(problem.where.file == "courses.csv");
    CHECK(problem.where.line == wrong.line);
    CHECK(problem.where.column == wrong.column);
    CHECK(problem.where.json_pointer.empty());
    CHECK(describe(problem).find(wrong.says) != std::string::npos);
  }
}

TEST_CASE("headings of a table are known, once each") {
  const Problem misspelled = refused("id,lattitude,longitude,weather\na,35,-83,w.csv\n");
  CHECK(misspelled.where.column == 2);
  CHECK(misspelled.remedy == "did you mean 'latitude'?");
  CHECK(refused("id,id\na,b\n").where.column == 2);
  CHECK(refused("").what == "the table is empty");
  CHECK(describe(refused("id,longitude,weather\na,-83,w.csv\n")).find("latitude") != std::string::npos);
  CHECK(describe(refused("id,latitude,longitude,weather\n")).find("no site") != std::string::npos);
}
