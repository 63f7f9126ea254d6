// SPDX-License-Identifier: MIT
// What goes wrong for people in a hurry when weather is fetched: places corrected, stations of another kind,
// services that refuse, and what must then be said.
#include <catch2/catch.hpp>

#include "records/service_calls.hpp"
#include "support/fetch_answers.hpp"

using namespace soilclock;
using namespace soilclock::tests;

TEST_CASE("a corrected height begins anew and leaves no step behind", "[fetch]") {
  const ServedDesk desk{stand_in};
  const auto fetch = [&](const std::string& height) {
    desk.server.forget_requests();
    const Run run = desk.run(one_course_fetch(desk, {"--elevation", height}));
    REQUIRE(run.code == 0);
    return requests_to(desk.server, "/v1/archive");
  };
  const int whole = fetch("1017");
  CHECK(fetch("310") == whole);
  CHECK(fetch("310.2") == 1);  // the same meter
}

TEST_CASE("a height that is not said is that of what is kept", "[fetch]") {
  const ServedDesk desk{stand_in};
  REQUIRE(desk.run(one_course_fetch(desk, {"--elevation", "310"})).code == 0);
  const auto advise = [&](const std::vector<std::string>& more) {
    return desk.run(
        joined({"advise", "--service", "open-meteo", "--service-settings", desk.settings}, one_course(more)));
  };
  CHECK(advise({}).code == 0);
  CHECK(advise({"--elevation", "310.3"}).code == 0);
  const Run other = advise({"--elevation", "810"});
  CHECK(other.code == 3);
  CHECK(holds(other.err, "310 m"));
}

TEST_CASE("the days since a fetch are told to be those of its forecast", "[fetch]") {
  const ServedDesk desk{stand_in};
  REQUIRE(desk.run(one_course_fetch(desk, {})).code == 0);
  const Run run = desk.run(joined({"advise", "--service", "open-meteo", "--service-settings", desk.settings,
                                   "--on", "2026-10-20", "--format", "json"},
                                  one_course({})));
  CHECK(holds(run.out, "the days since are taken from the forecast"));
}

TEST_CASE("an ensemble of a few members is not passed off as one", "[fetch]") {
  const ServedDesk desk{[](const SeenRequest& request) {
    if (request.path != "/v1/ensemble") return stand_in(request);
    Reply reply;
    reply.body = stand_in_point(35.6, -83.1, today, today + Days{16}, 4, false);
    return reply;
  }};
  REQUIRE(desk.run(one_course_fetch(desk, {})).code == 0);
  const Json answer = desk.run(joined({"advise", "--service", "open-meteo", "--service-settings",
                                       desk.settings, "--format", "json"},
                                      one_course({})))
                          .json();
  CHECK(remarked(answer["sites"][0]["remarks"], "members-too-few"));
  CHECK(answer["sites"][0]["weather"]["sources"].size() == 2);
}

TEST_CASE("what only a file can need is refused where there is none", "[fetch]") {
  const ServedDesk desk{stand_in};
  const auto ask = [&](const std::vector<std::string>& more) {
    return desk.run(
        joined({"advise", "--service", "open-meteo", "--service-settings", desk.settings}, one_course(more)));
  };
  CHECK(holds(ask({"--columns", "date,tmin,tmax"}).err, "--columns is about a weather file"));
  CHECK(ask({"--swap-reversed"}).code == 2);
  CHECK(holds(ask({"--shift-morning"}).err, "no observers who read in the morning"));
  CHECK(desk.run(one_course_fetch(desk, {"--shift-morning"})).code == 2);
}

TEST_CASE("names of one clock share their days", "[fetch]") {
  const ServedDesk desk{stand_in};
  REQUIRE(desk.run(one_course_fetch(desk, {"--time-zone", "America/New_York"})).code == 0);
  for (const std::string zone : {"US/Eastern", "UTC-5", "UTC-05:00"}) {
    CAPTURE(zone);
    CHECK(desk.run(joined({"advise", "--service", "open-meteo", "--service-settings", desk.settings,
                           "--time-zone", zone},
                          one_course({})))
              .code == 0);
  }
}

TEST_CASE("sites with and without a height, or of different clocks, do not share a request", "[fetch]") {
  const ServedDesk desk{stand_in};
  desk.file("pair.json", R"([
    {"id":"a","latitude":35.6,"longitude":-83.1,"elevation_m":310,"time_zone":"America/New_York","weather":[{"service":"open-meteo"}]},
    {"id":"b","latitude":35.9,"longitude":-83.4,"time_zone":"America/New_York","weather":[{"service":"open-meteo"}]}])");
  REQUIRE(desk.run({"fetch", "--sites", desk.path("pair.json"), "--service-settings", desk.settings,
                    "--years", "0", "--no-members"})
              .code == 0);
  CHECK(requests_to(desk.server, "/v1/archive") == 2);
  for (const SeenRequest& request : desk.server.requests())
    CHECK(request.parameters.contains("elevation") == (request.parameters.at("latitude") == "35.6"));
}

TEST_CASE("summaries are read in the units they were asked for, hot or not", "[fetch]") {
  const double high = GENERATE(48.0, 42.0, 33.0, 20.0);
  const ServedDesk desk{[&](const SeenRequest& asked) {
    const Day end = *parse_iso_day(asked.parameters.at("endDate"));
    return csv(summaries("USC00000001", end - Days{30}, 31, high, high - 14.0));
  }};
  const Run run = desk.run(one_course_fetch(desk, {"--service", "ncei:USC00000001"}));
  CAPTURE(run.err, high);
  REQUIRE(run.code == 0);
  const auto days = desk.stored(
      records::SeriesKey{"course", "ncei", records::WeatherPart::history, "USC00000001", {}, "", ""});
  REQUIRE(!days.empty());
  CHECK(days.back().maximum->celsius() == high);
}

TEST_CASE("summaries that are not in the units asked for are refused", "[fetch]") {
  const ServedDesk desk{[&](const SeenRequest& asked) {
    const Day end = *parse_iso_day(asked.parameters.at("endDate"));
    return csv(summaries("USC00000001", end - Days{30}, 31, 88.0, 65.0));
  }};
  const Run run = desk.run(one_course_fetch(desk, {"--service", "ncei:USC00000001"}));
  CHECK(run.code == 4);
  CHECK(holds(run.err, "Fahrenheit is suspected"));
  CHECK(!holds(run.err, "--units-in"));
}

TEST_CASE("places a service does not cover say nothing about the next one", "[fetch]") {
  ServedDesk desk{[](const SeenRequest& request) {
    if (request.path.starts_with("/points/5"))
      return Reply{404,
                   R"({"title":"Data Unavailable For Requested Point","detail":"Unable to provide data"})"};
    return Reply{503, "{}"};
  }};
  desk.file("four.json", R"([
    {"id":"a","latitude":51.1,"longitude":-75,"weather":[{"service":"nws"}]},
    {"id":"b","latitude":52.1,"longitude":-75,"weather":[{"service":"nws"}]},
    {"id":"c","latitude":53.1,"longitude":-75,"weather":[{"service":"nws"}]},
    {"id":"d","latitude":35.6,"longitude":-83.1,"weather":[{"service":"nws"}]},
    {"id":"e","latitude":36.6,"longitude":-83.1,"weather":[{"service":"nws"}]},
    {"id":"f","latitude":37.6,"longitude":-83.1,"weather":[{"service":"nws"}]},
    {"id":"g","latitude":38.6,"longitude":-83.1,"weather":[{"service":"nws"}]}])");
  const Run run = desk.run({"fetch", "--sites", desk.path("four.json"), "--service-settings", desk.settings});
  CAPTURE(run.err);
  CHECK(holds(run.err, "soilclock: c: 127.0.0.1"));
  CHECK(holds(run.err, "soilclock: d: 127.0.0.1"));
  CHECK(
      holds(run.err, "soilclock: g: US National Weather Service failed 3 times in a row and was left alone"));
}

TEST_CASE("calls count whether anything came of them or not", "[fetch]") {
  const ServedDesk desk{[](const SeenRequest&) { return Reply{500, "{}"}; }};
  const Run run = desk.run(one_course_fetch(desk, {"--no-members"}));
  CHECK(run.code == 4);
  auto store =
      records::Store::open(desk.path("own-records/soilclock/records.db"), records::Access::existing).value();
  double weight = 0.0;
  const auto calls = records::ServiceCalls{store}.since("open-meteo", Instant{today}).value();
  for (const records::CountedCall& call : calls) weight += call.weight;
  CHECK(weight >= static_cast<double>(desk.server.requests().size()));
}

TEST_CASE("a second between heavy calls is kept, and calls to the forecast office stand apart", "[fetch]") {
  const ServedDesk desk{stand_in};
  std::string sites;
  for (int i = 0; i < 20; ++i) {
    sites += fmt::format(
        R"({}{{"id":"s{}","latitude":{:.1f},"longitude":-83.0,"time_zone":"America/New_York","weather":[{{"service":"open-meteo"}}]}})",
        i == 0 ? "[" : ",", i, 30.0 + 0.2 * i);
  }
  desk.file("twenty.json", sites + "]");
  REQUIRE(desk.run({"fetch", "--sites", desk.path("twenty.json"), "--service-settings", desk.settings,
                    "--years", "0", "--no-members"})
              .code == 0);
  CHECK(std::count(desk.pauses.begin(), desk.pauses.end(), std::chrono::milliseconds{1000}) >= 1);
}

TEST_CASE("a hindcast is held against reanalysis where that is what is kept, and says so",
          "[fetch][statistics]") {
  const ServedDesk desk{stand_in};
  REQUIRE(desk.run(one_course_fetch(desk, {"--time-zone", "America/New_York", "--years", "8"}, false)).code ==
          0);
  const Run run = desk.run(
      joined({"hindcast", "--service", "open-meteo", "--service-settings", desk.settings, "--time-zone",
              "America/New_York", "--event", "soil-crossing", "--issued", "09-15", "--format", "json"},
             one_course({})));
  CAPTURE(run.err);
  REQUIRE(run.code == 0);
  const Json report = run.json();
  CHECK(!report["sites"][0]["events"].empty());
  CHECK(remarked(report["sites"][0]["remarks"], "judged-by-reanalysis"));
}

TEST_CASE("the days of a season say whether they were measured or modelled", "[fetch]") {
  const ServedDesk desk{stand_in};
  REQUIRE(desk.run(one_course_fetch(desk, {"--time-zone", "America/New_York"})).code == 0);
  const Run run = desk.run(joined({"season", "--service", "open-meteo", "--service-settings", desk.settings,
                                   "--time-zone", "America/New_York", "--format", "csv"},
                                  one_course({})));
  REQUIRE(run.code == 0);
  CHECK(holds(run.out, "modelled"));
  CHECK(!holds(run.out, ",measured"));
}

TEST_CASE("days that may still change, and doubts of the reader, are part of the answer", "[fetch]") {
  const ServedDesk desk{[&](const SeenRequest& asked) {
    const Day begin = *parse_iso_day(asked.parameters.at("startDate"));
    const Day end = *parse_iso_day(asked.parameters.at("endDate"));
    return csv(
        summaries("USC00000001", begin, static_cast<int>((end - begin).count()) + 1, 24.0, 10.0, "0700"));
  }};
  REQUIRE(desk.run(one_course_fetch(desk, {"--service", "ncei:USC00000001"})).code == 0);
  const Run run = desk.run(joined(
      {"advise", "--service", "ncei:USC00000001", "--service-settings", desk.settings, "--format", "json"},
      one_course({})));
  CAPTURE(run.err);
  const Json answer = run.json();
  CHECK(answer["sites"][0]["weather"]["sources"][0]["provisional_from"] == "2026-09-15");
  CHECK(remarked(answer["sites"][0]["remarks"], "answer-doubt"));
  CHECK(holds(run.out, "morning"));
}

TEST_CASE("a station read in the morning has its maxima moved back where that is said", "[fetch]") {
  const ServedDesk desk{[&](const SeenRequest& asked) {
    const Day end = *parse_iso_day(asked.parameters.at("endDate"));
    std::string rows = summaries("USC00000001", end - Days{20}, 20, 24.0, 10.0, "0700");
    rows += fmt::format(
        "\"USC00000001\",\"35.70\",\"-83.00\",\"{}\",\"31.0\",\",,7,0700\",\"12.0\",\",,7,0700\"\n",
        iso(end));
    return csv(rows);
  }};
  const auto last_maxima = [&](const std::vector<std::string>& more, const std::string& cut) {
    REQUIRE(desk.run(one_course_fetch(desk, joined({"--service", "ncei:USC00000001"}, more))).code == 0);
    return desk.stored({"course", "ncei", records::WeatherPart::history, "USC00000001", {}, "", cut});
  };
  const auto printed = last_maxima({}, "");
  const auto moved = last_maxima({"--shift-morning"}, "morning observations moved back");
  REQUIRE(printed.size() == moved.size());
  CHECK(printed.back().maximum->celsius() == 31.0);
  CHECK(!moved.back().maximum);
  CHECK(moved[moved.size() - 2].maximum->celsius() == 31.0);
}

TEST_CASE("courses in one cell of a coarse grid are told, though it answers with their own places",
          "[fetch]") {
  const ServedDesk desk{[](const SeenRequest& asked) {
    std::string values;
    const Day end = make_day(2026, 10, 14);
    for (Day day = make_day(2024, 1, 1); day <= end; day += Days{1}) {
      std::string key = iso(day);
      std::erase(key, '-');
      values += fmt::format("{}\"{}\":{}", values.empty() ? "" : ",", key, 15 + day_of_year(day) % 4);
    }
    return Reply{
        200, fmt::format(R"({{"type":"Feature","geometry":{{"type":"Point","coordinates":[{},{},300.0]}},)"
                         R"("properties":{{"parameter":{{"T2M_MAX":{{{}}},"T2M_MIN":{{{}}}}}}},"header":)"
                         R"({{"fill_value":-999.0,"time_standard":"LST"}},"parameters":{{"T2M_MAX":)"
                         R"({{"units":"C"}},"T2M_MIN":{{"units":"C"}}}}}})",
                         asked.parameters.at("longitude"), asked.parameters.at("latitude"), values, values)};
  }};
  desk.file("pair.json", R"([
    {"id":"a","latitude":35.6,"longitude":-83.1,"weather":[{"service":"power"}]},
    {"id":"b","latitude":35.5,"longitude":-83.2,"weather":[{"service":"power"}]},
    {"id":"c","latitude":35.9,"longitude":-83.1,"weather":[{"service":"power"}]}])");
  const Run fetched = desk.run(
      {"fetch", "--sites", desk.path("pair.json"), "--service-settings", desk.settings, "--years", "2"});
  CAPTURE(fetched.err);
  REQUIRE(fetched.code == 0);
  const Json answer = desk.run({"advise", "--sites", desk.path("pair.json"), "--service-settings",
                                desk.settings, "--format", "json"})
                          .json();
  CHECK(remarked(answer["sites"][0]["remarks"], "shared-cell"));
  CHECK(remarked(answer["sites"][1]["remarks"], "shared-cell"));
  CHECK(!remarked(answer["sites"][2]["remarks"], "shared-cell"));
}

TEST_CASE("a slip in one site of many is told with its name", "[fetch]") {
  const ServedDesk desk{stand_in};
  desk.file("many.json", R"([{"id":"good","latitude":35,"longitude":-83,"weather":[{"service":"open-meteo"}]},
    {"id":"slip","latitude":36,"longitude":-83,"weather":[{"service":"ncei"}]}])");
  const Run run = desk.run({"fetch", "--sites", desk.path("many.json"), "--service-settings", desk.settings});
  CHECK(run.code == 2);
  CHECK(holds(run.err, "slip: this service needs a station"));
  desk.file("typo.json",
            R"({"id":"good","latitude":35,"longitude":-83,"weather":[{"servce":"open-meteo"}]})");
  CHECK(holds(desk.run({"fetch", "--sites", desk.path("typo.json")}).err, "servce"));
}

TEST_CASE("without --on the day is that of the site's own calendar", "[fetch]") {
  ServedDesk desk{stand_in};
  desk.now = Instant{make_day(2026, 10, 16)} + std::chrono::hours{2};  // the evening of the 15th in New York
  REQUIRE(desk.run(one_course_fetch(desk, {"--time-zone", "America/New_York"})).code == 0);
  const Run run = desk.run(joined({"advise", "--service", "open-meteo", "--service-settings", desk.settings,
                                   "--time-zone", "America/New_York", "--format", "json"},
                                  one_course({})));
  CAPTURE(run.err);
  CHECK(run.json()["on"] == "2026-10-15");
  const Run text = desk.run(joined({"advise", "--service", "open-meteo", "--service-settings", desk.settings,
                                    "--time-zone", "America/New_York", "--details"},
                                   one_course({})));
  CHECK(holds(text.out, "the day of the answer"));
}
