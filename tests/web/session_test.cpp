// SPDX-License-Identifier: MIT
#include "web/session.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <tuple>

#include "core/time_zone.hpp"
#include "site/read_files.hpp"
#include "site/site_place.hpp"
#include "site/us_places.hpp"
#include "web/soilclock.h"

using namespace soilclock;

namespace {

using Json = nlohmann::json;

std::string file_text(const std::string& below_root) {
  std::ifstream file{SOILCLOCK_SOURCE_DIR "/" + below_root, std::ios::binary};
  std::ostringstream text;
  text << file.rdbuf();
  REQUIRE_FALSE(text.str().empty());
  return text.str();
}

/// The first demo course, answering for one grass, and its files.
struct Demo {
  Json site = Json::parse(file_text("config/demo_sites.json")).at(0);
  web::Session session;

  Demo() {
    site["targets"] = {"POAAN"};
    for (const char* name : {"copper_heron.csv", "copper_heron_forecast.csv", "copper_heron_probe.csv"})
      REQUIRE(session
                  .put_file(std::string{"weather_samples/"} + name,
                            file_text(std::string{"weather_samples/"} + name))
                  .code == 0);
  }
  std::string sites() const { return Json::array({site}).dump(); }
  static std::string options(const Json& more = Json::object()) {
    Json all{{"on", "2026-10-15"}, {"sites_file", "config/demo_sites.json"}};
    all.update(more);
    return all.dump();
  }
};

}  // namespace

TEST_CASE("a course is answered from files handed over, and one that is lacking is named") {
  Demo demo;
  const web::Outcome whole = demo.session.advice(demo.sites(), Demo::options());
  CHECK(whole.code == 0);
  CHECK(whole.problems.empty());
  const Json answer = Json::parse(whole.result);
  CHECK(answer.at("sites").at(0).at("targets").at(0).at("target") == "POAAN");
  demo.session.drop_files();
  const web::Outcome lacking = demo.session.advice(demo.sites(), Demo::options());
  CHECK(lacking.code == 2);
  CHECK_THAT(lacking.problems,
             Catch::Contains("weather_samples/copper_heron.csv") && Catch::Contains("not handed over"));
}

TEST_CASE("the areas of a course are answered one by one, each by its id, with the course's line") {
  Demo demo;
  demo.site["areas"] = {{{"name", "tee"}, {"soil", {{"offset_c", -2.0}}}}, {{"name", "green & co"}}};
  const web::Outcome outcome = demo.session.advice(demo.sites(), Demo::options());
  CHECK(outcome.code == 0);
  const Json answer = Json::parse(outcome.result);
  CHECK(answer.at("sites").size() == 2);
  CHECK(answer.at("sites")[0].at("site") == "copper-heron/tee");
  CHECK(answer.at("courses")[0].at("course") == "copper-heron");
  const web::Outcome list = demo.session.courses(demo.sites(), Demo::options());
  CHECK_THAT(list.result, Catch::Contains("href=\"#copper-heron%2Fgreen%20%26%20co\"") &&
                              Catch::Contains("Copper Heron, annual bluegrass: "));
  const web::Outcome one =
      demo.session.course(demo.sites(), Demo::options({{"only", {"copper-heron/green & co"}}}));
  CHECK_THAT(one.result, Catch::Contains("Copper Heron, green &amp; co"));
  CHECK(demo.session.course(demo.sites(), Demo::options({{"only", {"copper-heron/gren & co"}}})).code == 2);
}

TEST_CASE("options and sites that cannot be meant are refused in one line, not ignored") {
  Demo demo;
  const std::pair<Json, const char*> wrong[]{{{{"onn", "2026-10-15"}}, "onn"},
                                             {{{"on", "15.10.2026"}}, "this is not a date"},
                                             {{{"only", {"nobody"}}}, "no site of the file has this id"},
                                             {{{"units", "furlongs"}}, "units"},
                                             {{{"targets", {"moss"}}}, "this target is not known"},
                                             {{{"plan", "moonshine"}}, "moonshine"},
                                             {{{"what_if", {{"soil_c", 40}}}}, "soil_c"},
                                             {{{"what_if", {{"weeks_later", 9}}}}, "weeks_later"}};
  for (const auto& [options, words] : wrong) {
    CAPTURE(words);
    const web::Outcome outcome = demo.session.advice(demo.sites(), Demo::options(options));
    CHECK(outcome.code == 2);
    CHECK_THAT(outcome.problems, Catch::Contains(words));
    CHECK(std::count(outcome.problems.begin(), outcome.problems.end(), '\n') == 1);
  }
  CHECK(demo.session.advice("{", Demo::options()).code == 2);
  CHECK(demo.session.advice(demo.sites(), "").code == 2);
  demo.site["weather"] = {{{"service", "open-meteo"}}};
  CHECK_THAT(demo.session.advice(demo.sites(), Demo::options()).problems,
             Catch::Contains("nothing is fetched"));
}

TEST_CASE("names of courses are text in every part of a page") {
  Demo demo;
  demo.site["name"] = "<script>alert(1)</script>";
  demo.site["id"] = "a b\"<>/é";
  const web::Outcome course = demo.session.course(demo.sites(), Demo::options());
  const web::Outcome courses = demo.session.courses(demo.sites(), Demo::options());
  CHECK(course.code == 0);
  for (const web::Outcome* part : {&course, &courses}) {
    CHECK_THAT(part->result, !Catch::Contains("<script"));
    CHECK_THAT(part->result, Catch::Contains("&lt;script&gt;"));
  }
  CHECK_THAT(courses.result, Catch::Contains("href=\"#a%20b%22%3C%3E%2F%C3%A9\""));
}

TEST_CASE("an answer is worked out anew when its file, site, day or plan changes, and only then") {
  Demo demo;
  const auto page = [&](const Json& more = Json::object()) {
    return demo.session.course(demo.sites(), Demo::options(more)).result;
  };
  const std::string first = page();
  CHECK(page() == first);
  CHECK(page({{"on", "2026-10-14"}}) != first);
  CHECK(page({{"plan", "16 weeks, none"}}) != first);
  CHECK(page() == first);
  demo.site["turf"]["irrigated"] = false;
  CHECK(page() != first);
  demo.site["turf"]["irrigated"] = true;
  REQUIRE(demo.session.put_file("weather_samples/copper_heron_forecast.csv", "date,tmin,tmax,rain\n").code ==
          0);
  CHECK(page() != first);
}

TEST_CASE("a what-if says what changed, and no more where nothing is asked") {
  Demo demo;
  const auto asked = [&](const Json& what_if) {
    return demo.session.what_if(demo.sites(), Demo::options({{"what_if", what_if}}));
  };
  const web::Outcome nothing = asked(Json::object());
  CHECK(nothing.code == 0);
  CHECK_THAT(nothing.result, Catch::Contains("None of these figures changes."));
  CHECK_THAT(nothing.result, !Catch::Contains("instead of"));
  const web::Outcome cooler = asked({{"soil_c", -2.0}});
  CHECK_THAT(cooler.result, Catch::Contains("earlier, on") && Catch::Contains("instead of"));
  const web::Outcome warmer = asked({{"soil_c", 2.0}});
  CHECK_THAT(warmer.result, Catch::Contains("later, on"));
  CHECK_THAT(asked({{"weeks_later", 3}}).result, Catch::Contains("Waiting three weeks"));
  CHECK_THAT(asked({{"plan", "moonshine"}}).problems, Catch::Contains("moonshine"));
}

TEST_CASE("a what-if about the weather changes the answer, and the base curve stands behind the asked one") {
  Demo demo;
  const auto asked = [&](const Json& what_if) {
    return demo.session.what_if(demo.sites(), Demo::options({{"what_if", what_if}}));
  };
  const std::string nothing = asked(Json::object()).result;
  CHECK_THAT(nothing, Catch::Contains("class=\"behind\""));
  // Two dry weeks leave the soil's residual and the seed without water; a frost and a lost week move what is
  // known.
  CHECK(asked({{"dry_ahead", true}}).result != nothing);
  CHECK(asked({{"frost_ahead", true}}).result != nothing);
  CHECK(asked({{"missing_week", true}}).result != nothing);
  CHECK(asked({{"record_years", 1}}).result != nothing);
  CHECK_THAT(asked({{"record_years", 0}}).problems, Catch::Contains("record_years"));
}

TEST_CASE("cases stand side by side under their names, three at most and all of one grass") {
  Demo demo;
  const auto cases = [&](const Json& list) {
    return demo.session.cases(demo.sites(), Demo::options({{"cases", list}}));
  };
  const Json cooler{{"soil_c", -1.0}};
  const Json dry{{"irrigated", false}, {"dry_ahead", true}};
  const Json spent{{"plan", "8 weeks, contact"}, {"frost_ahead", true}, {"record_years", 2}};
  const web::Outcome three = cases({cooler, dry, spent});
  CHECK(three.code == 0);
  for (const char* words : {"soil 1.8 F cooler", "turf not watered, no rain for 14 days",
                            "28.0 F on Oct 18, record from 2024-10-15, plan 8 weeks, contact"})
    CHECK_THAT(three.result, Catch::Contains(words));
  CHECK(three.result.find("The season with soil 1.8 F cooler") != std::string::npos);
  CHECK(cases({cooler, dry, spent, cooler}).code == 2);
  CHECK(cases(Json::array()).code == 2);
}

TEST_CASE("past seasons and rules of thumb are compared for the grass that is asked about") {
  Demo demo;
  const web::Outcome compared = demo.session.comparison(demo.sites(), Demo::options());
  CHECK(compared.code == 0);
  CHECK_THAT(compared.result, Catch::Contains("seasons, one above another"));
  CHECK_THAT(compared.result, Catch::Contains("Below 70 F"));
  CHECK(demo.session.comparison(demo.sites(), Demo::options({{"targets", {"moss"}}})).code == 2);
}

TEST_CASE("notes in the site file move the answer, and one that cannot be noted is refused at its place") {
  Demo demo;
  const std::string before = demo.session.course(demo.sites(), Demo::options()).result;
  demo.site["log"] = {{{"kind", "application"}, {"date", "2026-09-08"}, {"active", {"prodiamine"}}}};
  const web::Outcome noted = demo.session.course(demo.sites(), Demo::options());
  CHECK(noted.code == 0);
  CHECK(noted.result != before);
  CHECK_THAT(noted.result, Catch::Contains("prodiamine"));
  demo.site["log"][0]["date"] = "September";
  const web::Outcome refused = demo.session.course(demo.sites(), Demo::options());
  CHECK(refused.code == 2);
  CHECK_THAT(refused.problems, Catch::Contains("/0/log/0") && Catch::Contains("field 'date'"));
}

TEST_CASE("every state the page offers lies in the country and in its time zone") {
  const Json states = Json::parse(file_text("config/us_states.json")).at("states");
  CHECK(states.size() == 50);
  for (const Json& state : states) {
    CAPTURE(state.dump());
    const Place place{state.at("latitude"), state.at("longitude"), {}};
    const auto zone = TimeZone::named(state.at("time_zone").get<std::string>());
    REQUIRE(zone);
    CHECK_FALSE(place_problem(place, *zone));
    CHECK(in_united_states(place, *zone).value());
    const double hours =
        static_cast<double>(zone->standard_offset(Instant{make_day(2026, 1, 15)}).count()) / 3600.0;
    CHECK(std::abs(place.longitude_deg / 15.0 - hours) < 1.5);
  }
}

TEST_CASE("a what-if about one of several grasses is held against the same answer that the page shows") {
  Demo demo;
  demo.site["targets"] = {"POAAN", "DIGIS", "ELEIN"};
  CHECK(demo.session.course(demo.sites(), Demo::options()).code == 0);
  for (const char* target : {"POAAN", "DIGIS", "ELEIN"}) {
    CAPTURE(target);
    const web::Outcome outcome =
        demo.session.what_if(demo.sites(), Demo::options({{"what_if", {{"target", target}}}}));
    CHECK_THAT(outcome.result, Catch::Contains("None of these figures changes."));
  }
}

TEST_CASE("a file is looked at by itself, in words or as a document; a bad one is refused") {
  web::Session session;
  REQUIRE(session.put_file("a.csv", "date,tmin,tmax,rain\n2026-10-01,50,70,0\n2026-10-02,51,72,0.1\n").code ==
          0);
  REQUIRE(session.put_file("b.csv", "no weather at all\n").code == 0);
  const web::Outcome words =
      session.inspection(R"({"file": "a.csv", "format": "text", "units_in": "F,in", "units": "us"})");
  CHECK(words.code == 0);
  CHECK_THAT(words.result, Catch::Contains("a.csv"));
  const Json document = Json::parse(session.inspection(R"({"file": "a.csv", "units_in": "F,in"})").result);
  CHECK(document.at("files").at(0).at("file") == "a.csv");
  const web::Outcome bad = session.inspection(R"({"file": "b.csv"})");
  CHECK(bad.code == 3);
  CHECK_FALSE(bad.problems.empty());
  CHECK(session.inspection(R"({"file": "c.csv"})").code == 2);
  CHECK(session.inspection(R"({"file": "a.csv", "time_zone": "Mars"})").code == 2);
}

TEST_CASE(
    "the request for weather names one host, the place as roughly as the service needs it, and the terms") {
  const web::Outcome asked =
      web::Session::weather_request(R"({"latitude": 35.60123, "longitude": -83.10456, "on": "2026-10-15"})");
  CHECK(asked.code == 0);
  const Json request = Json::parse(asked.result);
  const Json service = Json::parse(file_text("config/services.json")).at("services").at("open-meteo");
  CHECK(request.at("host") == service.at("hosts").at("history"));
  CHECK_THAT(request.at("url").get<std::string>(),
             Catch::StartsWith(request.at("host").get<std::string>() + "/") &&
                 Catch::Contains("?latitude=35.6&longitude=-83.1&") &&
                 Catch::Contains("&start_date=2013-12-31&end_date=2026-10-15&"));
  CHECK(request.at("terms") == service.at("terms"));
  CHECK_THAT(request.at("credit").get<std::string>(),
             Catch::Contains("2026") && Catch::Contains(service.at("license").get<std::string>()));
  for (const char* wrong : {R"({"latitude": 95, "longitude": 0, "on": "2026-10-15"})",
                            R"({"latitude": 35, "longitude": 0})", "{}"})
    CHECK(web::Session::weather_request(wrong).code == 2);
}

TEST_CASE("an answer of a service is put in as a file, and what is none is refused with what to do") {
  web::Session session;
  const std::string good =
      R"({"latitude": 35.6, "longitude": -83.1, "utc_offset_seconds": -18000, "timezone": "America/New_York",
          "daily_units": {"time": "iso8601", "temperature_2m_max": "°C", "temperature_2m_min": "°C"},
          "daily": {"time": ["2026-10-01", "2026-10-02"], "temperature_2m_max": [21.0, 22.0],
                    "temperature_2m_min": [10.0, 11.0]}})";
  CHECK(session.put_answer("a.json", 200, good).code == 0);
  CHECK(session.inspection(R"({"file": "a.json"})").code == 0);
  const std::tuple<int, std::string, const char*> bad[]{
      {0, "", "check the connection of this device"},
      {429, R"({"error": true, "reason": "Daily API request limit exceeded"})", "Daily API request limit"},
      {503, "busy", "trouble of its own"},
      {200, "<html></html>", "web page instead of data"},
      {200, R"({"daily": )", "cut off"}};
  for (const auto& [status, body, words] : bad) {
    CAPTURE(words);
    const web::Outcome outcome = session.put_answer("b.json", status, body);
    CHECK(outcome.code == 4);
    CHECK_THAT(outcome.problems,
               Catch::Contains(words) && !Catch::Contains("settings") && !Catch::Contains("advise"));
    CHECK(std::count(outcome.problems.begin(), outcome.problems.end(), '\n') == 1);
    CHECK(session.inspection(R"({"file": "b.json"})").code == 2);
  }
}

TEST_CASE("a file that is asked about again is read anew when its bytes or the way to read it change") {
  ReadFiles files;
  const std::string first = "date,tmin,tmax\n2026-10-01,50,70\n";
  const std::string second = "date,tmin,tmax\n2026-10-02,50,70\n";
  weather::ReadingOptions options;
  options.units_in = "F";
  const auto day = [&](const std::string& bytes) { return files.read(bytes, "a.csv", options).first_date; };
  const auto high = [&] {
    return files.read(second, "a.csv", options).daily.air_max.at(make_day(2026, 10, 2))->celsius();
  };
  CHECK(day(first) == make_day(2026, 10, 1));
  CHECK(day(second) == make_day(2026, 10, 1));  // the same name stands for the same bytes
  files.forget("a.csv");
  CHECK(day(second) == make_day(2026, 10, 2));
  const double fahrenheit = high();
  options.units_in = "C";
  CHECK(high() != fahrenheit);
}

TEST_CASE("through C: files beyond the limit are not kept, and texts stay until the next question") {
  soilclock_session* session = soilclock_open();
  REQUIRE(session != nullptr);
  const std::size_t largest = Json::parse(soilclock_limits()).at("largest_file_bytes");
  const std::string large(largest + 1, 'x');
  CHECK(soilclock_put_file(session, "large.csv", large.data(), large.size()) == 2);
  CHECK_THAT(soilclock_problems(session), Catch::Contains("larger than 50 MB"));
  CHECK(soilclock_put_file(session, "small.csv", "x", 1) == 0);
  CHECK(std::string{soilclock_problems(session)}.empty());
  CHECK(soilclock_advice(session, "[]", R"({"on": "2026-10-15"})") == 2);
  CHECK(soilclock_result_size(session) == 0);
  CHECK_THAT(soilclock_version(), Catch::Contains("time zones of 20"));
  soilclock_close(session);
}
