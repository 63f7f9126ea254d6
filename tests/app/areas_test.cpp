// SPDX-License-Identifier: MIT
// Courses with areas: read strictly, each area answered as a course of that ground and turf alone would be.
#include <catch2/catch.hpp>
#include <set>

#include "app/course_desk.hpp"
#include "site/site_file.hpp"
#include "support/fetch_answers.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// A fall day with most of the season's decisions ahead.
const std::string fall_day = "2025-10-20";

/// The upland course with these areas.
Json with_areas(const Desk& desk, const std::vector<Json>& areas) {
  Json site = course(desk);
  site["name"] = "Copper Heron";
  site["areas"] = Json(areas);
  return site;
}

Json named(const std::string& name, const Json& more = Json::object()) {
  Json area = {{"name", name}};
  area.update(more);
  return area;
}

Json warmer_by(double kelvin) { return {{"soil", {{"offset_c", kelvin}}}}; }

Run advised(const Desk& desk, const Json& sites, const std::vector<std::string>& more = {}) {
  const Run run = desk.run(joined(
      {"advise", "--sites", desk.file("areas.json", sites.dump()), "--on", fall_day, "--format", "json"},
      more));
  CAPTURE(run.err);
  REQUIRE(run.code == 0);
  return run;
}

Json sites_of(const Desk& desk, const Json& sites, const std::vector<std::string>& more = {}) {
  return advised(desk, sites, more).json().at("sites");
}

/// An answer without its names and without what only counts among several.
Json unnamed(Json site) {
  for (const char* key : {"site", "name", "area"}) site.erase(key);
  for (Json& target : site["targets"]) target.erase("urgency_rank");
  return site;
}

std::string half_up(const Json& site) {
  for (const Json& milestone : site.at("targets")[0].at("milestones"))
    if (milestone.at("percent") == 50) return milestone.at("date").get<std::string>();
  return "";
}

Json application(const std::string& area) {
  Json note = {
      {"kind", "application"}, {"date", "2025-09-08"}, {"active", {"prodiamine"}}, {"purpose", "pre"}};
  if (!area.empty()) note["area"] = area;
  return note;
}

Json reading(const std::string& area) {
  Json note = {{"kind", "reading"},
               {"date", "2025-10-18"},
               {"time", "11:00"},
               {"depth", "2in"},
               {"temperature", "70F"}};
  if (!area.empty()) note["area"] = area;
  return note;
}

std::vector<std::string> codes_of(const Json& site) {
  std::vector<std::string> codes;
  for (const Json& remark : site.at("remarks")) codes.push_back(remark.at("code"));
  return codes;
}

bool remarks_with(const Json& site, const std::string& code) {
  const auto codes = codes_of(site);
  return std::find(codes.begin(), codes.end(), code) != codes.end();
}

/// How a site file with these areas is refused.
Problem refused_areas(const Json& areas) {
  const Desk desk;
  Json site = with_areas(desk, {});
  site["areas"] = areas;
  const auto sites = read_sites("[" + site.dump() + "]", "sites.json", "");
  REQUIRE(!sites);
  CHECK(sites.error().family == Family::request);
  return sites.error();
}

}  // namespace

TEST_CASE("an area is answered as the course with that soil, turf and plan alone would be") {
  const Desk desk;
  constexpr double five_f = 5.0 / 1.8;
  const std::vector<Json> areas{
      named("south fairway", warmer_by(five_f)), named("shaded tee", warmer_by(-five_f)),
      named("green", {{"turf", {{"species", "creeping bentgrass"}, {"irrigated", false}}},
                      {"soil", {{"texture", "sand"}}},
                      {"plan", {{"residual_weeks", 8}, {"foliar", "none"}}}})};
  const Json answers = sites_of(desk, with_areas(desk, areas));
  REQUIRE(answers.size() == 3);
  CHECK(answers[0].at("site") == "copper-heron/south fairway");
  CHECK(answers[0].at("name") == "Copper Heron, south fairway");
  CHECK(answers[0].at("area") ==
        Json({{"course", "copper-heron"}, {"course_name", "Copper Heron"}, {"name", "south fairway"}}));
  for (const std::size_t i : {0U, 1U}) {
    Json alone = course(desk);
    alone["soil"] = areas[i].at("soil");
    const Json answer = sites_of(desk, alone)[0];
    CHECK(answer.at("area").is_null());
    CHECK(unnamed(answers[i]) == unnamed(answer));
  }
  Json alone = course(desk);
  alone.update({{"turf", areas[2].at("turf")}, {"soil", areas[2].at("soil")}, {"plan", areas[2].at("plan")}});
  CHECK(unnamed(answers[2]) == unnamed(sites_of(desk, alone)[0]));
  // Warmer soil in fall: annual bluegrass comes up later.
  CHECK(half_up(answers[0]) > half_up(answers[1]));
}

TEST_CASE("areas of different turf get different answers, and overseeding concerns its area alone") {
  const Desk desk;
  const Json answers =
      sites_of(desk, with_areas(desk, {named("fairway", {{"turf", {{"overseed_on", "2025-10-25"}}}}),
                                       named("green", {{"turf", {{"species", "creeping bentgrass"}}}}),
                                       named("tee", {{"plan", {{"actives", {"prodiamine"}}}}})}));
  CHECK(answers[0].at("facts").at("turf") == "bermudagrass");
  CHECK(answers[0].at("facts").at("irrigated") == true);
  CHECK(holds(answers[0].at("priority_warning").get<std::string>(), "overseeding is planned"));
  CHECK(answers[1].at("facts").at("turf") == "cool-season");
  CHECK(answers[1].at("priority_warning").is_null());
  CHECK(answers[0].at("turf").is_object());
  CHECK(answers[1].at("turf") != answers[0].at("turf"));
  CHECK(answers[2].at("targets")[0].at("plan") != answers[0].at("targets")[0].at("plan"));
}

TEST_CASE("what an area leaves out it takes from the course, and null takes a date back") {
  const Desk desk;
  Json site = with_areas(
      desk, {named(" tee "), named("green", {{"turf", {{"overseed_on", nullptr}}}, {"targets", {"DIGIS"}}})});
  site["turf"]["overseed_on"] = "2025-10-01";
  site["soil"] = {{"depth", "2in"}, {"offset_c", 1.5}, {"texture", "sand"}};
  site["probe"] = {{{"file", "p.csv"}}};
  const auto sites = read_sites(site.dump(), "s.json", "folder");
  REQUIRE(sites);
  REQUIRE(sites->size() == 2);
  const Site& tee = sites->front();
  CHECK(tee.area->name == "tee");
  CHECK(tee.area->among == std::vector<std::string>{"tee", "green"});
  CHECK(tee.soil_offset.kelvin() == 1.5);
  CHECK(tee.texture == soil::Texture::sand);
  CHECK(tee.probe.front().path == "folder/p.csv");
  CHECK(iso(*tee.overseed_on) == "2025-10-01");
  CHECK(!tee.own_soil);
  CHECK(!sites->back().overseed_on);
  CHECK(sites->back().turf_species == tee.turf_species);
  CHECK(sites->back().targets == std::vector<std::string>{"DIGIS"});
  // A probe tells of the ground it stands in: an area with an offset of its own does not take the course's.
  site["areas"] = {named("tee", warmer_by(2.0)), named("green", {{"probe", {{{"file", "q.csv"}}}}})};
  const auto own = read_sites(site.dump(), "s.json", "folder");
  REQUIRE(own);
  CHECK(own->front().probe.empty());
  CHECK(own->front().own_soil);
  CHECK(own->back().probe.front().path == "folder/q.csv");
  CHECK(own->back().soil_offset.kelvin() == 1.5);
}

TEST_CASE("what cannot be an area is refused with its place and the way out") {
  struct Slip {
    Json areas;
    std::string place;
    std::string said;
  };
  const Slip slip = GENERATE(values<Slip>({
      {Json::array(), "/0/areas", "leave \"areas\" out"},
      {Json("tee"), "/0/areas", "a list"},
      {Json{{"name", "tee"}}, "/0/areas", "a list"},
      {Json::array({"tee", "green"}), "/0/areas/0", "an object"},
      {Json::array({Json{{"nmae", "tee"}}}), "/0/areas/0/name", "missing"},
      {Json::array({named("tee", {{"trf", {{"irrigated", true}}}})}), "/0/areas/0/trf",
       "did you mean 'turf'?"},
      {Json::array({named("tee", {{"turf", {{"specis", "zoysiagrass"}}}})}), "/0/areas/0/turf/specis",
       "did you mean 'species'?"},
      {Json::array({named("  ")}), "/0/areas/0/name", "empty"},
      {Json::array({named("-")}), "/0/areas/0/name", "empty"},
      {Json::array({named("tee"), named("Tee ")}), "/0/areas/1/name", "name of its own"},
      {Json::array({named("9 tee"), named("green"), named("9-Tee")}), "/0/areas/2/name", "two areas"},
      {Json::array({named("tee", warmer_by(28.0))}), "/0/areas/0/soil/offset_c", "-10 to 10"},
      {Json::array({named("tee", {{"offset_f", 5}})}), "/0/areas/0/offset_f", "\"offset_c\""},
      {Json::array({named("tee", {{"soil", {{"offset_f", 5}}}})}), "/0/areas/0/soil/offset_f",
       "5 F are 2.8 C"},
      {Json::array({named("tee", {{"irrigated", true}})}), "/0/areas/0/irrigated", "\"turf\""},
      {Json::array({named("tee", {{"weather", {{{"file", "own.csv"}}}}})}), "/0/areas/0/weather",
       "a course of its own"},
      {Json::array({named("tee", {{"latitude", 35.0}})}), "/0/areas/0/latitude", "a course of its own"},
      {Json::array({named("tee", {{"id", "tee"}})}), "/0/areas/0/id", "leave the id out"},
      {Json::array({named("tee", {{"log", Json::array()}})}), "/0/areas/0/log", "log of the course"},
      {Json::array({named("tee", {{"areas", Json::array()}})}), "/0/areas/0/areas", "one after another"},
  }));
  const Problem problem = refused_areas(slip.areas);
  CAPTURE(slip.areas.dump(), describe(problem));
  CHECK(problem.where.json_pointer == slip.place);
  CHECK(holds(describe(problem), slip.said));
  // Keys that never stand in an area are not offered.
  CHECK(!holds(problem.expected, "weather"));
  CHECK(!holds(problem.expected, "log"));
}

TEST_CASE("too many areas, and one with the id of another course, are refused") {
  Json many = Json::array();
  for (int i = 0; i <= static_cast<int>(most_areas); ++i) many.push_back(named("area " + std::to_string(i)));
  CHECK(holds(describe(refused_areas(many)), "61 areas"));
  const Desk desk;
  Json other = course(desk);
  other["id"] = "copper-heron/tee";
  for (const Json& sites :
       {Json{with_areas(desk, {named("tee")}), other}, Json{other, with_areas(desk, {named("tee")})}}) {
    const auto read = read_sites(sites.dump(), "s.json", "");
    REQUIRE(!read);
    CHECK(holds(describe(read.error()), "id"));
  }
  other["id"] = "copper-heron";
  CHECK(!read_sites(Json{with_areas(desk, {named("tee")}), other}.dump(), "s.json", ""));
}

TEST_CASE("a note of one area leaves the other untouched, a note of the course counts for both") {
  const Desk desk;
  Json site = with_areas(desk, {named("tee"), named("fairway")});
  const Json plain = sites_of(desk, site);
  const auto noted = [&](const Json& log) {
    site["log"] = log;
    return sites_of(desk, site);
  };
  const Json of_tee = noted(Json::array({application("Tee")}));
  CHECK(of_tee[0].at("targets")[0].at("applied").is_object());
  CHECK(unnamed(of_tee[1]) == unnamed(plain[1]));
  const Json of_course = noted(Json::array({application("")}));
  CHECK(of_course[0].at("targets")[0].at("applied") == of_tee[0].at("targets")[0].at("applied"));
  CHECK(of_course[1].at("targets")[0].at("applied").is_object());
  const Json of_both = noted(Json::array({application("tee, fairway")}));
  CHECK(of_both[1].at("targets")[0].at("applied").is_object());
  CHECK(!remarks_with(of_both[1], "note-of-no-area"));
  const Json of_nobody = noted(Json::array({application("farway")}));
  CHECK(of_nobody[0].at("targets")[0].at("applied").is_object());
  CHECK(remarks_with(of_nobody[0], "note-of-no-area"));
  CHECK(holds(of_nobody[1].at("remarks").dump(), "Did you mean 'fairway'?"));
}

TEST_CASE("a soil reading without an area is not taken for an area with an offset of its own") {
  const Desk desk;
  Json site = with_areas(desk, {named("tee", warmer_by(-2.0)), named("fairway")});
  const Json plain = sites_of(desk, site);
  site["log"] = Json::array({reading("")});
  const Json answers = sites_of(desk, site);
  CHECK(answers[0].at("soil") == plain[0].at("soil"));
  CHECK(remarks_with(answers[0], "reading-of-no-area"));
  CHECK(answers[1].at("soil") != plain[1].at("soil"));
  CHECK(!remarks_with(answers[1], "reading-of-no-area"));
  site["log"] = Json::array({reading("tee")});
  const Json of_tee = sites_of(desk, site);
  CHECK(of_tee[0].at("soil") != plain[0].at("soil"));
  CHECK(unnamed(of_tee[1]) == unnamed(plain[1]));
}

TEST_CASE("notes of the records file name an area as those of the site file do, or stand under its id") {
  const CourseDesk desk;
  const Json site = with_areas(desk, {named("tee"), named("fairway")});
  const Json plain = sites_of(desk, site);
  desk.note("application", "2025-09-08", {"--active", "prodiamine", "--purpose", "pre", "--area", "tee"});
  const Json by_area = sites_of(desk, site, {"--records", desk.path("log.db")});
  CHECK(by_area[0].at("targets")[0].at("applied").is_object());
  CHECK(unnamed(by_area[1]) == unnamed(plain[1]));
  Json both = site;
  both["log"] = Json::array({application("tee")});
  CHECK(sites_of(desk, both, {"--records", desk.path("log.db")}) == by_area);  // one note, said twice
  std::filesystem::remove(desk.path("log.db"));
  desk.note("application", "2025-09-08", {"--active", "prodiamine", "--purpose", "pre"}, "copper-heron/tee");
  CHECK(unnamed(sites_of(desk, site, {"--records", desk.path("log.db")})[0]).at("targets")[0].at("applied") ==
        by_area[0].at("targets")[0].at("applied"));
}

TEST_CASE("--only takes a course with all its areas, or one of them") {
  const Desk desk;
  const Json file = with_areas(desk, {named("tee"), named("fairway")});
  const auto ids = [&](const std::vector<std::string>& only) {
    std::vector<std::string> found;
    for (const Json& site : sites_of(desk, file, only)) found.push_back(site.at("site"));
    return found;
  };
  const std::vector<std::string> both{"copper-heron/tee", "copper-heron/fairway"};
  CHECK(ids({"--only", "copper-heron"}) == both);
  CHECK(ids({"--only", "copper-heron/fairway"}) == std::vector{both[1]});
  CHECK(ids({"--only", "copper-heron/tee", "--only", "copper-heron"}) == both);
  CHECK(advised(desk, file, {"--only", "copper-heron/tee"}).json().at("courses").empty());
  const Run run =
      desk.run({"advise", "--sites", desk.path("areas.json"), "--on", fall_day, "--only", "copper-heron/te"});
  CHECK(run.code == 2);
  CHECK(holds(run.err, "did you mean 'copper-heron/tee'?"));
  CHECK(holds(desk.run({"advise", "--sites", desk.path("areas.json"), "--only", "Fairway"}).err,
              "did you mean 'copper-heron/fairway'?"));
}

TEST_CASE("the course's line stands above the table and in JSON, and a failed area is said in it") {
  const Desk desk;
  const Json file = with_areas(desk, {named("tee", warmer_by(-3.0)), named("fairway", warmer_by(3.0)),
                                      named("green", {{"probe", {{{"file", desk.path("absent.csv")}}}}})});
  const std::string sites = desk.file("areas.json", file.dump());
  const Run json = desk.run({"advise", "--sites", sites, "--on", fall_day, "--format", "json"});
  CHECK(json.code == 1);
  const Json courses = json.json().at("courses");
  REQUIRE(courses.size() == 1);
  const Json& grass = courses[0].at("grasses")[0];
  CHECK(holds(grass.at("summary").get<std::string>(), "no answer for green"));
  CHECK(grass.at("areas").size() == 3);
  CHECK(grass.at("half_up_days_apart").get<int>() > 0);
  CHECK(grass.at("areas")[2].at("action") == "no-answer");
  const Run text = desk.run({"advise", "--sites", sites, "--on", fall_day});
  CHECK(text.out.starts_with("Copper Heron, annual bluegrass: "));
  const Run line = desk.run({"advise", "--sites", "-", "--on", fall_day, "--format", "json"}, file.dump());
  CHECK(line.code == 1);
  CHECK(line.json().at("courses") == courses);
  CHECK(line.json().at("sites").size() == 3);
  const Run season = desk.run(
      {"season", "--sites", sites, "--only", "copper-heron/tee", "--on", fall_day, "--format", "csv"});
  CHECK(season.code == 0);
}

TEST_CASE("a report has a page an area, a message about the course and one point on the map") {
  const Desk desk;
  const Json file = with_areas(desk, {named("tee", warmer_by(-3.0)), named("\xF0\x9F\x8C\xB2 fairway")});
  const Run run = desk.run({"report", "--sites", desk.file("areas.json", file.dump()), "--on", fall_day,
                            "--output", desk.path("pages")});
  CAPTURE(run.err);
  CHECK(run.code == 0);
  CHECK(run.out == "1 course: open " + desk.path("pages/index.html") + "\n");
  std::set<std::string> pages;
  for (const auto& entry : std::filesystem::directory_iterator{desk.path("pages")})
    pages.insert(entry.path().filename());
  CHECK(pages.size() == 8);  // page and message an area, the course's message, index, calendar, map
  CHECK(pages.contains("copper-heron.txt"));
  std::ifstream map{desk.path("pages/courses.geojson")};
  CHECK(Json::parse(map).at("features").size() == 1);
  std::ifstream index{desk.path("pages/index.html")};
  const std::string list{std::istreambuf_iterator<char>{index}, {}};
  CHECK(holds(list, "Copper Heron, annual bluegrass: "));
  CHECK(holds(list, "Copper Heron, \xF0\x9F\x8C\xB2 fairway"));
}

TEST_CASE("weather is fetched once for a course and found by each of its areas", "[fetch]") {
  const ServedDesk desk{stand_in};
  Json file = course(desk);
  file["weather"] = {{{"service", "open-meteo"}}};
  file["areas"] = {named("tee", warmer_by(-3.0)), named("fairway")};
  const std::string sites = desk.file("areas.json", file.dump());
  const Run fetched =
      desk.run({"fetch", "--sites", sites, "--service-settings", desk.settings, "--format", "json"});
  CAPTURE(fetched.err);
  REQUIRE(fetched.code == 0);
  REQUIRE(fetched.json().at("sites").size() == 1);
  CHECK(fetched.json().at("sites")[0].at("site") == "copper-heron");
  const Run run =
      desk.run({"advise", "--sites", sites, "--service-settings", desk.settings, "--format", "json"});
  CHECK(run.code == 0);
  const Json answers = run.json().at("sites");
  REQUIRE(answers.size() == 2);
  CHECK(answers[0].at("weather") == answers[1].at("weather"));
  CHECK(!answers[0].at("weather").at("sources").empty());
}

TEST_CASE("the README shows what its course with areas is answered") {
  const std::string readme = source_text("README.md");
  const Desk desk;
  const Run run = desk.run(
      {"advise", "--sites", SOILCLOCK_SOURCE_DIR "/tests/app/course_with_areas.json", "--on", "2026-10-01"});
  CHECK(run.code == 0);
  CHECK(holds(readme, run.out.substr(0, run.out.find("\nDoubt"))));
}
