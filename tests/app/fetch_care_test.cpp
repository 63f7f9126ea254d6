// SPDX-License-Identifier: MIT
// What goes wrong for people in a hurry when weather is fetched: places corrected, files mixed up, services
// that refuse, and what must then be said.
#include <catch2/catch.hpp>

#include "records/service_calls.hpp"
#include "support/served_desk.hpp"
#include "support/service_records.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

std::vector<std::string> one_course(const std::vector<std::string>& more) {
  return joined({"--latitude", "35.6", "--longitude", "-83.1", "--name", "course"}, more);
}

/// Days of a station's summaries in metric units, for an id.
std::string summaries(const std::string& id, Day begin, int days, double high, double low,
                      const std::string& observed = "") {
  std::string text =
      "\"STATION\",\"LATITUDE\",\"LONGITUDE\",\"DATE\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\",\"TMIN_"
      "ATTRIBUTES\"\n";
  for (int i = 0; i < days; ++i) {
    text += fmt::format("\"{0}\",\"35.70\",\"-83.00\",\"{1}\",\"{2}\",\",,7,{4}\",\"{3}\",\",,7,{4}\"\n", id,
                        iso(begin + Days{i}), high, low + i % 2, observed);
  }
  return text;
}

Reply csv(std::string body) {
  Reply reply;
  reply.content_type = "text/csv";
  reply.body = std::move(body);
  return reply;
}

bool remarked(const Json& list, const std::string& code) {
  return std::any_of(list.begin(), list.end(), [&](const Json& remark) { return remark["code"] == code; });
}

}  // namespace

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
  CHECK(fetch("310.2") == 1);  // the same metre
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
  const auto days = desk.kept(
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

TEST_CASE("an answer of another station is not taken for the one that was named", "[fetch]") {
  const ServedDesk desk{stand_in};
  const std::string other =
      desk.file("other.csv", summaries("USC00000002", make_day(2026, 9, 1), 30, 25.0, 11.0));
  const Run run = desk.run(one_course_fetch(desk, {"--service", "ncei:USC00000001", "--from", other}, false));
  CHECK(run.code == 2);
  CHECK(holds(run.err, "the wanted station is not in the file"));
  const Run json = desk.run(one_course_fetch(
      desk,
      {"--service", "ncei:USC00000001", "--from",
       desk.file("other.json", R"([{"STATION":"USC00000002","DATE":"2026-09-01","TMAX":"25","TMIN":"11"}])")},
      false));
  CHECK(json.code == 3);
  CHECK(holds(json.err, "is of another station"));
  CHECK(holds(json.err, "other.json"));
}

TEST_CASE("a table of the user's own is no answer of a service", "[fetch]") {
  const ServedDesk desk{stand_in};
  const std::string own = desk.file("own.csv", made_up_weather(make_day(2026, 1, 1), 200));
  for (const std::string service : {"open-meteo", "nws", "power", "ncei:USC00000001"}) {
    CAPTURE(service);
    const Run run = desk.run(one_course_fetch(desk, {"--service", service, "--from", own}, false));
    CHECK(run.code == 3);
    CHECK(holds(run.err, "own.csv: the answer of"));
    CHECK(holds(run.err, "among the weather of a site"));
  }
}

TEST_CASE("a saved answer cannot have been given in the future, nor long before its days", "[fetch]") {
  const ServedDesk desk{stand_in};
  const std::string saved = desk.file(
      "saved.json", stand_in_point(35.6, -83.1, make_day(2026, 9, 20), make_day(2026, 10, 25), 0, true));
  const auto take = [&](const std::string& day) {
    return desk.run(one_course_fetch(desk, {"--from", saved, "--saved-on", day}, false));
  };
  CHECK(take("2026-10-16").code == 2);
  CHECK(holds(take("2062-11-25").err, "a day to come"));
  CHECK(holds(take("2016-10-14").err, "cannot have been given on 2016-10-14"));
  CHECK(take("2016-10-14").code == 2);
  CHECK(take("2026-10-14").code == 0);
}

TEST_CASE("the day a saved answer was given is said where it is only that of its file", "[fetch]") {
  ServedDesk desk{stand_in};
  desk.now = Instant{make_day(2200, 1, 1)};  // later than any file on this machine was written
  const std::string saved = desk.file(
      "saved.json", stand_in_point(35.6, -83.1, make_day(2020, 1, 1), make_day(2020, 6, 1), 0, true));
  const Run run = desk.run(one_course_fetch(desk, {"--from", saved, "--format", "json"}, false));
  REQUIRE(run.code == 0);
  const Json report = run.json();
  CHECK(remarked(report["sites"][0]["remarks"], "given-assumed"));
  const Run said = desk.run(
      one_course_fetch(desk, {"--from", saved, "--saved-on", "2020-06-02", "--format", "json"}, false));
  const Json quiet = said.json();
  CHECK(!remarked(quiet["sites"][0]["remarks"], "given-assumed"));
}

TEST_CASE("an old grid answer of a forecast office counts from when it was made", "[fetch]") {
  const auto grid = recorded_answer("api_samples/nws/gridpoint_tae_2022-02-04.json");
  if (!grid) return;
  const ServedDesk desk{stand_in};
  const Run run =
      desk.run({"fetch", "--latitude", "30.02", "--longitude", "-84.98", "--time-zone", "America/New_York",
                "--service", "nws", "--name", "bay", "--service-settings", desk.settings, "--from",
                desk.file("grid.json", *grid), "--saved-on", "2026-10-14", "--format", "json"});
  CAPTURE(run.err);
  REQUIRE(run.code == 0);
  const Json report = run.json();
  CHECK(report["sites"][0]["parts"][0]["part"] == "forecast");
  CHECK(remarked(report["sites"][0]["remarks"], "stale-answer"));
}

TEST_CASE("options that would do nothing are refused", "[fetch]") {
  const ServedDesk desk{stand_in};
  const std::string saved = desk.file("saved.json", "{}");
  using Words = std::vector<std::string>;
  const Words words = GENERATE_COPY(values<Words>({{"--saved-on", "2026-10-01"},
                                                   {"--units-in", "F"},
                                                   {"--from", saved, "--years", "3"},
                                                   {"--from", saved, "--no-members"},
                                                   {"--years", "twelve"},
                                                   {"--years", "1.5"}}));
  const Run run = desk.run(one_course_fetch(desk, words, false));
  CAPTURE(run.err);
  CHECK(run.code == 2);
  CHECK(holds(run.err, words.size() == 2 ? words[0] : words[2]));
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
              "America/New_York", "--event", "soil-crossing", "--standing", "09-15", "--format", "json"},
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

TEST_CASE("days cut otherwise stay apart, are used while there are no others, and are told", "[fetch]") {
  const ServedDesk desk{stand_in};
  std::string days;
  std::string high;
  std::string low;
  for (int i = 0; i < 600; ++i) {
    const char* comma = i == 0 ? "" : ",";
    days += fmt::format("{}\"{}\"", comma, iso(make_day(2025, 2, 1) + Days{i}));
    high += fmt::format("{}{}", comma, 20 + i % 3);
    low += fmt::format("{}{}", comma, 8 + i % 4);
  }
  const std::string saved = desk.file(
      "daily.json",
      fmt::format(
          R"({{"latitude":35.6,"longitude":-83.1,"generationtime_ms":0.1,"utc_offset_seconds":0,"timezone":"GMT",)"
          R"("timezone_abbreviation":"GMT","elevation":300.0,"daily_units":{{"time":"iso8601",)"
          R"("temperature_2m_max":"°C","temperature_2m_min":"°C"}},"daily":{{"time":[{}],)"
          R"("temperature_2m_max":[{}],"temperature_2m_min":[{}]}}}})",
          days, high, low));
  const std::string own =
      desk.file("own.csv", "# days of local standard time\n" + made_up_weather(make_day(2016, 1, 1), 3500));
  const Run taken = desk.run(one_course_fetch(
      desk,
      {"--time-zone", "America/New_York", "--from", saved, "--saved-on", "2026-10-10", "--format", "json"},
      false));
  CAPTURE(taken.err);
  REQUIRE(taken.code == 0);
  const Json report = taken.json();
  CHECK(remarked(report["sites"][0]["remarks"], "cut-otherwise"));
  CHECK(report["sites"][0]["parts"][0]["days"] == 600 - 0);
  const auto advise = [&] {
    return desk.run(joined({"advise", "--service", "open-meteo", "--service-settings", desk.settings, "--on",
                            "2026-09-20", "--time-zone", "America/New_York", "--format", "json"},
                           one_course({})));
  };
  CHECK(advise().json()["sites"][0]["weather"]["first"] == "2025-02-01");
  REQUIRE(desk.run(one_course_fetch(desk, {"--time-zone", "America/New_York"})).code == 0);
  CHECK(advise().json()["sites"][0]["weather"]["first"] == "2024-01-01");
}

TEST_CASE("a slip in one site of many is told with its name", "[fetch]") {
  const ServedDesk desk{stand_in};
  desk.file("many.json", R"([{"id":"good","latitude":35,"longitude":-83,"weather":[{"service":"open-meteo"}]},
    {"id":"slip","latitude":36,"longitude":-83,"weather":[{"service":"ncei"}]}])");
  const Run run = desk.run({"fetch", "--sites", desk.path("many.json"), "--service-settings", desk.settings});
  CHECK(run.code == 2);
  CHECK(holds(run.err, "slip: this service must be told a station"));
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
                                    "--time-zone", "America/New_York"},
                                   one_course({})));
  CHECK(holds(text.out, "the day of the answer"));
}
