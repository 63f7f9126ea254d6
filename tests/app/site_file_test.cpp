// SPDX-License-Identifier: MIT
// The site file: what is refused, and where the refusal points.
#include <catch2/catch.hpp>

#include "site/site_file.hpp"
#include "support/command_run.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// A valid list of one site that uses every key.
const char* good_sites = R"([{"id":"a","name":"A","latitude":35.6,"longitude":-83.1,"elevation_m":310,
 "group":" north route ","time_zone":"America/New_York","units":"us",
 "turf":{"species":"hybrid bermudagrass","irrigated":true,"overseed_on":null,"slope_to_green":false},
 "soil":{"depth":"5cm","offset_c":0.5,"texture":"sandy loam"},"targets":["POAAN","DIGIS"],
 "plan":{"actives":["prodiamine"],"groups":[5]},"resistance":[{"group":9,"tested":true,"share":0.4}],
 "weather":[{"file":"course.csv","columns":"","dates":"year-first","units_in":"C,mm","station":"",
             "swap_reversed_extremes":false,"shift_morning_observations":false},{"file":"f.csv","role":"forecast"}],
 "probe":[{"file":"probe.csv"}],
 "log":[{"kind":"count","date":"2026-10-20","target":"POAAN","count":[12,0,7]},
        {"kind":"reading","date":"2026-10-12","time":"06:10","depth":"2in","temperature":"62F"}]}])";

Problem refusal(const std::string& text) {
  const auto sites = read_sites(text, "sites.json", "folder");
  REQUIRE(!sites);
  CHECK(sites.error().family == Family::request);
  CHECK(sites.error().where.file == "sites.json");
  return sites.error();
}

}  // namespace

TEST_CASE("a site file that uses every key is read") {
  const auto sites = read_sites(good_sites, "sites.json", "folder");
  REQUIRE(sites);
  const Site& site = sites->front();
  CHECK(site.id == "a");
  CHECK(site.group == "north route");
  CHECK(site.place.latitude_deg == 35.6);
  CHECK(*site.place.elevation_m == 310.0);
  CHECK(site.units == Units::us);
  CHECK(site.irrigation->irrigated);
  CHECK(!site.overseed_on);
  CHECK(site.soil_offset.kelvin() == 0.5);
  CHECK(site.texture == soil::Texture::sandy_loam);
  CHECK(site.targets == std::vector<std::string>{"POAAN", "DIGIS"});
  CHECK(site.plan.entries.size() == 2);
  CHECK(site.resistance.front().group == 9);
  REQUIRE(site.weather.size() == 2);
  CHECK(site.weather[0].path == "folder/course.csv");
  CHECK(site.weather[1].forecast);
  CHECK(site.probe[0].path == "folder/probe.csv");
  REQUIRE(site.log.size() == 2);
  CHECK(std::get<records::ProbeReading>(site.log[0]).temperature->fahrenheit() == Approx(62.0));  // by date
  CHECK(std::get<records::ScoutingCount>(site.log[1]).counts == std::vector{12, 0, 7});
  CHECK(records::site_of(site.log[1]) == "a");
  // One object alone and a byte order mark are fine, too.
  CHECK(read_sites(site_line("b", "c.csv"), "", "").value().front().weather[0].path == "c.csv");
  CHECK(read_sites("\xEF\xBB\xBF" + std::string{good_sites}, "", "").has_value());
}

TEST_CASE("every wrong value of a site file is refused with its place in the user's own file") {
  struct Slip {
    std::string part;
    std::string by;
    std::string place;
    std::string said;
  };
  const Slip slip = GENERATE(values<Slip>({
      {R"("elevation_m":310)", R"("elevation":310)", "/0/elevation", "did you mean 'elevation_m'?"},
      {R"("name":"A")", R"("nmae":"A")", "/0/nmae", "did you mean 'name'?"},
      {R"("group":" north route ")", R"("gruop":"north route")", "/0/gruop", "did you mean 'group'?"},
      {R"("group":" north route ")", R"("group":" ")", "/0/group", "empty"},
      {R"("group":" north route ")", R"("group":7)", "/0/group", "text in quotes"},
      {R"("species")", R"("specis")", "/0/turf/specis", "did you mean 'species'?"},
      {R"("depth")", R"("dept")", "/0/soil/dept", "did you mean 'depth'?"},
      {R"("units_in")", R"("units-in")", "/0/weather/0/units-in", "did you mean 'units_in'?"},
      {R"("probe":[{"file")", R"("probe":[{"fil")", "/0/probe/0/file", "missing"},
      {R"("role":"forecast")", R"("role":"forcast")", "/0/weather/1/role", "did you mean 'forecast'?"},
      {R"("latitude":35.6)", R"("latitude":"35.6")", "/0/latitude", "a number"},
      {R"("latitude":35.6)", R"("latitude":95.6)", "/0/latitude", "-90 to 90"},
      {R"("latitude":35.6)", R"("latitude":-83.1)", "/0", "exchanged?"},
      {R"("longitude":-83.1)", R"("longitude":83.1)", "/0", "did you mean -83.1?"},
      {R"("longitude":-83.1,)", "", "/0/longitude", "missing"},
      {R"("id":"a")", R"("id":" ")", "/0/id", "empty"},
      {R"("time_zone":"America/New_York")", R"("time_zone":"America/NewYork")", "/0/time_zone",
       "did you mean 'America/New_York'?"},
      {R"("units":"us")", R"("units":"imperial")", "/0/units", "us and metric"},
      {R"("irrigated":true)", R"("irrigated":"yes")", "/0/turf/irrigated",
       "true, false or millimeters a week"},
      {R"("overseed_on":null)", R"("overseed_on":"1/10/2026")", "/0/turf/overseed_on", "YYYY-MM-DD"},
      {R"("depth":"5cm")", R"("depth":"50cm")", "/0/soil/depth", "2.5cm to 15cm"},
      {R"("depth":"5cm")", R"("depth":5)", "/0/soil/depth", "text in quotes"},
      {R"("offset_c":0.5)", R"("offset_c":50)", "/0/soil/offset_c", "-10 to 10"},
      {R"("texture":"sandy loam")", R"("texture":"sandy laom")", "/0/soil/texture",
       "did you mean 'sandy loam'?"},
      {R"("texture":"sandy loam")", R"("texture":"peat")", "/0/soil/texture", "silty clay"},
      {R"("targets":["POAAN","DIGIS"])", R"("targets":"POAAN")", "/0/targets", "a list"},
      {R"("actives":["prodiamine"])", R"("actves":["prodiamine"])", "/0/plan/actves",
       "did you mean 'actives'?"},
      {R"("share":0.4)", R"("share":1.4)", "/0/resistance/0/share", "0 to 1"},
      {R"("dates":"year-first")", R"("dates":"ymd")", "/0/weather/0/dates",
       "day-first, month-first or year-first"},
      {R"({"file":"f.csv","role":"forecast"})", R"("f.csv")", "/0/weather/1", "an object"},
      {R"({"file":"f.csv",)", R"({"file":"f.csv\u0000x",)", "/0/weather/1/file", "no name of a file"},
      {R"("kind":"count")", R"("kind":"coutn")", "/0/log/0/kind", "did you mean 'count'?"},
      {R"("kind":"count")", R"("kind":"count","site":"b")", "/0/log/0/site", "leave it out"},
      {R"("count":[12,0,7])", R"("cuont":[12,0,7])", "/0/log/0", "did you mean 'count'?"},
      {R"("count":[12,0,7])", R"("count":[12,-1])", "/0/log/0", "field 'count'"},
      {R"("count":[12,0,7])", R"("count":{})", "/0/log/0/count", "a text, a number or a list"},
      {R"("count":[12,0,7])", R"("notes":"none")", "/0/log/0", "count"},
      {R"("temperature":"62F")", R"("temperature":62)", "/0/log/1", "field 'temperature'"},
      {R"("date":"2026-10-12")", R"("date":"10/12/2026")", "/0/log/1", "field 'date'"},
  }));
  const Problem problem = refusal(exchanged(good_sites, slip.part, slip.by));
  CAPTURE(slip.by, describe(problem));
  CHECK(problem.where.json_pointer == slip.place);
  CHECK(holds(describe(problem), slip.said));
}

TEST_CASE("a file that is no JSON is refused with line and column") {
  const Problem comma = refusal("[\n" + site_line("a", "c.csv") + ",\n]\n");
  CHECK(comma.where.line == 3);
  CHECK(holds(describe(comma), "check the commas"));
  CHECK(refusal("").where.line);
  CHECK(refusal("id,latitude\na,35\n").where.line == 1);
  CHECK(holds(describe(refusal(std::string(100000, '['))), "more than 100 deep"));
  CHECK(!refusal("[]").what.empty());
  CHECK(!refusal("[3]").what.empty());
  CHECK(!refusal("null").what.empty());
}

TEST_CASE("two sites with one id are refused") {
  const Problem problem = refusal("[" + site_line("a", "c.csv") + "," + site_line("a", "d.csv") + "]");
  CHECK(problem.where.json_pointer == "/1/id");
  CHECK(holds(problem.what, "same id"));
}

TEST_CASE("on the command line a wrong site file exits 2 with its place, and answers nothing") {
  const Desk desk;
  for (const std::string command : {"advise", "season", "soil", "degree-days"}) {
    const Run run =
        desk.run({command, "--sites",
                  desk.file("s.json", exchanged(site_line("a", "c.csv"), "irrigated", "irigated"))});
    CHECK(run.code == 2);
    CHECK(run.problems() == 1);
    CHECK(holds(run.err, "s.json at /turf/irigated"));
    CHECK(run.out.empty());
  }
}
