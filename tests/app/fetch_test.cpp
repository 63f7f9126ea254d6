// SPDX-License-Identifier: MIT
// Weather fetched from a stand-in service on the loopback, kept, and answered from.
#include <catch2/catch.hpp>

#include "support/served_desk.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

constexpr const char* three_sites = R"([
 {"id":"heron","name":"Heron","latitude":35.6,"longitude":-83.1,"elevation_m":310,"time_zone":"America/New_York",
  "turf":{"irrigated":true},"weather":[{"service":"open-meteo"}]},
 {"id":"nine","name":"Nine","latitude":38.8,"longitude":-90.2,"elevation_m":150,"time_zone":"America/Chicago",
  "turf":{"irrigated":true},"weather":[{"service":"open-meteo"}]},
 {"id":"bell","name":"Bell","latitude":33.2,"longitude":-79.3,"elevation_m":5,"time_zone":"America/New_York",
  "turf":{"irrigated":true},"weather":[{"service":"open-meteo"}]}])";

/// A desk with three sites and a service of its own.
class FetchDesk : public ServedDesk {
 public:
  explicit FetchDesk(LoopbackServer::Handler handler) : ServedDesk{std::move(handler)} {
    file("sites.json", three_sites);
  }
  Run fetch(const std::vector<std::string>& more = {}, const std::string& years = "6") const {
    return run(joined(
        {"fetch", "--sites", path("sites.json"), "--service-settings", settings, "--years", years}, more));
  }
  Run advise(const std::vector<std::string>& more = {}) const {
    return run(joined({"advise", "--sites", path("sites.json"), "--service-settings", settings}, more));
  }
};

}  // namespace

TEST_CASE("three sites are fetched with one command and answered with one more", "[fetch]") {
  const FetchDesk desk{stand_in};
  const Run fetched = desk.fetch({"--format", "json"});
  INFO(fetched.err);
  REQUIRE(fetched.code == 0);
  const Json report = fetched.json();
  REQUIRE(report["sites"].size() == 3);
  for (const Json& site : report["sites"]) {
    REQUIRE(site["parts"].size() == 3);
    CHECK(site["parts"][0]["part"] == "history");
    CHECK(site["parts"][0]["first"] == "2020-01-01");
    CHECK(site["parts"][0]["last"] == "2026-10-14");
    CHECK(site["parts"][0]["days"] == 2479);
    CHECK(site["parts"][1]["part"] == "forecast");
    CHECK(site["parts"][1]["first"] == "2026-08-31");
    CHECK(site["parts"][1]["last"] == "2026-10-29");
    CHECK(site["parts"][2]["members"] == 31);
    CHECK(site["problems"].empty());
  }
  // Two time zones, seven calendar years; forecasts and members once a zone.
  CHECK(requests_to(desk.server, "/v1/archive") == 14);
  CHECK(requests_to(desk.server, "/v1/forecast") == 2);
  CHECK(requests_to(desk.server, "/v1/ensemble") == 2);
  for (const SeenRequest& request : desk.server.requests()) {
    CHECK(request.parameters.at("timezone") == "GMT");
    CHECK(request.parameters.count("elevation") == 1);
    CHECK(holds(request.headers.at("user-agent"), "soilclock/"));
    CHECK_FALSE(holds(request.headers.at("user-agent"), "turf@club.example"));
  }

  const Run advised = desk.advise({"--format", "json"});
  INFO(advised.err);
  REQUIRE(advised.code == 0);
  const Json answers = advised.json();
  for (const Json& site : answers["sites"]) {
    CHECK(site["weather"]["first"] == "2020-01-01");
    CHECK(site["weather"]["last_measured"] == "2026-10-14");
    CHECK(site["weather"]["last_forecast"] == "2026-10-29");
    REQUIRE(site["weather"]["sources"].size() == 3);
    CHECK(holds(site["weather"]["sources"][0]["attribution"], "Open-Meteo.com"));
    CHECK(holds(site["weather"]["sources"][0]["license"], "CC BY 4.0"));
    CHECK(site["weather"]["sources"][0]["fetched_at"] == "2026-10-15T12:00:00Z");
    CHECK(site["targets"][0]["emerged"]["percent"] > 0.0);
    bool seams = false;
    for (const Json& remark : site["remarks"]) seams = seams || remark["code"] == "joined-from";
    CHECK(seams);
  }
}

TEST_CASE("a day's minimum and maximum are those of the hours of its local standard day", "[fetch]") {
  const FetchDesk desk{stand_in};
  REQUIRE(desk.fetch({"--only", "nine"}, "0").code == 0);
  auto store =
      records::Store::open(desk.path("own-records/soilclock/records.db"), records::Access::existing).value();
  records::WeatherStore weather{store};
  const auto days = weather
                        .days({"nine",
                               "open-meteo",
                               records::WeatherPart::history,
                               "",
                               {38.8, -90.2, 150.0},
                               "UTC-06:00",
                               "local standard time"})
                        .value();
  REQUIRE(days.size() > 200);
  for (const records::StoredDay& day : days) {
    if (!day.minimum) continue;
    // By hand: local standard time there is UTC-6, in summer too.
    double low = 99.0;
    double high = -99.0;
    for (int hour = 6; hour < 30; ++hour) {
      const double value = std::round(invented_air(38.8, day.day + Days{hour / 24}, hour % 24) * 10.0) / 10.0;
      low = std::min(low, value);
      high = std::max(high, value);
    }
    CAPTURE(iso(day.day));
    REQUIRE(day.minimum->celsius() == Approx(low).margin(0.051));
    REQUIRE(day.maximum->celsius() == Approx(high).margin(0.051));
  }
}

TEST_CASE("a second run asks only for the days that may change", "[fetch]") {
  FetchDesk desk{stand_in};
  REQUIRE(desk.fetch().code == 0);
  desk.server.forget_requests();
  desk.now += std::chrono::hours{24};
  const Run again = desk.fetch({"--format", "json"});
  REQUIRE(again.code == 0);
  for (const SeenRequest& request : desk.server.requests()) {
    if (request.path != "/v1/archive") continue;
    // Ten days before the first run and the one since, and a day of UTC on either side.
    CHECK(request.parameters.at("start_date") == "2026-10-04");
    CHECK(request.parameters.at("end_date") == "2026-10-16");
  }
  CHECK(requests_to(desk.server, "/v1/archive") == 2);
  CHECK(again.json()["sites"][0]["parts"][0]["new_days"] == 1);
  CHECK(again.json()["sites"][0]["parts"][0]["changed_days"] == 0);
}

TEST_CASE("an answer says how old its weather is, and after ten days without any it is refused", "[fetch]") {
  const FetchDesk desk{stand_in};
  REQUIRE(desk.fetch({"--only", "heron"}).code == 0);
  const Run today_text = desk.advise({"--only", "heron", "--details"});
  CHECK(holds(today_text.out, "fetched 2026-10-15 12:00 UTC, the day of the answer"));
  CHECK(holds(today_text.out, "Weather data by Open-Meteo.com"));
  CHECK(holds(desk.advise({"--only", "heron", "--on", "2026-10-22"}).out, "(8 days old)"));
  CHECK(!holds(desk.advise({"--only", "heron"}).out, "days old"));
  const Run week = desk.advise({"--only", "heron", "--on", "2026-10-22", "--details"});
  CHECK(week.code == 0);
  CHECK(holds(week.out, "7 days before the answer"));
  CHECK(holds(week.out, "The last known day is 2026-10-14, 8 days before 2026-10-22"));
  CHECK(!holds(today_text.out, "The last known day"));
  CHECK(desk.advise({"--only", "heron", "--on", "2026-10-25"}).code == 0);
  const Run late = desk.advise({"--only", "heron", "--on", "2026-10-26"});
  CHECK(late.code == 3);
  CHECK(holds(late.err, "the weather ends on 2026-10-14, 12 days before 2026-10-26"));
  CHECK(holds(late.err, "run soilclock fetch"));
}

TEST_CASE("a forecast fetched after the day of the question is not used for it", "[fetch]") {
  const FetchDesk desk{stand_in};
  REQUIRE(desk.fetch({"--only", "heron"}).code == 0);
  const Json before = desk.advise({"--only", "heron", "--on", "2026-10-01", "--format", "json"}).json();
  const Json& site = before["sites"][0];
  CHECK(site["weather"]["last_measured"] == "2026-09-30");
  CHECK(site["weather"]["last_forecast"].is_null());
  bool remarked = false;
  for (const Json& remark : site["remarks"]) remarked = remarked || remark["code"] == "forecast-too-new";
  CHECK(remarked);
}

TEST_CASE("every kind of output names whose weather it rests on", "[fetch]") {
  const FetchDesk desk{stand_in};
  REQUIRE(desk.fetch({"--only", "heron"}, "9").code == 0);
  const std::vector<std::string> site{"--sites", desk.path("sites.json"), "--only",
                                      "heron",   "--service-settings",    desk.settings};
  for (const std::string command : {"advise", "season", "soil", "degree-days", "hindcast"}) {
    for (const std::string format : {"text", "json", "csv"}) {
      // The invented years differ too little for a season to be judged, and a table without rows rests on
      // nothing.
      if (command == "hindcast" && format == "csv") continue;
      CAPTURE(command, format);
      const Run run = desk.run(joined(joined({command}, site), {"--format", format}));
      CHECK(run.code == 0);
      CHECK(holds(run.out, "Weather data by Open-Meteo.com"));
      CHECK(holds(run.out, "creativecommons.org/licenses/by/4.0"));
    }
  }
}

TEST_CASE("the table of many sites names whose weather it rests on, once", "[fetch]") {
  const FetchDesk desk{stand_in};
  REQUIRE(desk.fetch().code == 0);
  const Run run =
      desk.run({"advise", "--sites", desk.path("sites.json"), "--service-settings", desk.settings});
  const auto first = run.out.find("Weather data by Open-Meteo.com");
  REQUIRE(first != std::string::npos);
  CHECK(run.out.find("Weather data by Open-Meteo.com", first + 1) == std::string::npos);
}

TEST_CASE("without anything fetched the answer says what to do", "[fetch]") {
  const FetchDesk desk{stand_in};
  const Run run = desk.advise({"--only", "heron"});
  CHECK(run.code == 3);
  CHECK(holds(run.err, "no weather is stored for 'heron'"));
  CHECK(holds(run.err, "soilclock fetch"));
}

TEST_CASE("a site that is moved is not answered with the weather of its old place", "[fetch]") {
  const FetchDesk desk{stand_in};
  REQUIRE(desk.fetch({"--only", "heron"}).code == 0);
  std::string moved = three_sites;
  moved.replace(moved.find("35.6"), 4, "36.6");
  desk.file("sites.json", moved);
  const Run run = desk.advise({"--only", "heron"});
  CHECK(run.code == 3);
  CHECK(holds(run.err, "was fetched for 35.6000 -83.1000"));
}

TEST_CASE("two sites in one cell of the grid are remarked", "[fetch]") {
  const FetchDesk desk{stand_in};
  std::string close = three_sites;
  close.replace(close.find("33.2"), 4, "35.61");
  close.replace(close.find("-79.3"), 5, "-83.11");
  desk.file("sites.json", close);
  REQUIRE(desk.fetch().code == 0);
  const Run run = desk.advise({"--only", "heron", "--details"});
  CHECK(holds(run.out, "same numbers here and at bell"));
  CHECK(!holds(desk.advise({"--only", "nine", "--details"}).out, "same numbers"));
}

TEST_CASE("the members of the forecast widen what is to come and change nothing behind", "[fetch]") {
  const FetchDesk desk{stand_in};
  REQUIRE(desk.fetch({"--only", "heron"}).code == 0);
  const Json with = desk.advise({"--only", "heron", "--format", "json"}).json()["sites"][0]["targets"][0];
  const FetchDesk bare{stand_in};
  REQUIRE(bare.fetch({"--only", "heron", "--no-members"}).code == 0);
  const Json without = bare.advise({"--only", "heron", "--format", "json"}).json()["sites"][0]["targets"][0];
  CHECK(with["emerged"] == without["emerged"]);
  CHECK(with["milestones"] != without["milestones"]);
}

TEST_CASE("the terms and the calls counted are remarked, and a key is neither shown nor sent elsewhere",
          "[fetch]") {
  const FetchDesk desk{stand_in};
  const Run free = desk.fetch({"--only", "nine"});
  CHECK(holds(free.out, "non-commercial"));
  CHECK(holds(free.err, "calls of 10000 a day"));
  desk.server.forget_requests();
  std::string settings = settings_for(desk.server);
  settings.insert(settings.find("\"hosts\""), "\"key\":\"secret-7\",");
  desk.file("settings.json", settings);
  const Run run = desk.fetch({"--only", "heron"});
  REQUIRE(run.code == 0);
  CHECK(!holds(run.out, "non-commercial"));  // nor its limits: they are those of the free service
  CHECK(!holds(run.err, "calls of 10000 a day"));
  CHECK(!holds(run.out + run.err, "secret-7"));
  for (const SeenRequest& request : desk.server.requests()) {
    CHECK(request.headers.at("x-api-key") == "secret-7");
    for (const auto& [name, value] : request.parameters) CHECK(value != "secret-7");
  }
}

TEST_CASE("a hundred years are not asked for, and a mistyped service is named", "[fetch]") {
  const FetchDesk desk{stand_in};
  CHECK(desk.fetch({}, "100").code == 2);
  const Run typo =
      desk.run({"fetch", "--latitude", "35.6", "--longitude", "-83.1", "--service", "open-metoe"});
  CHECK(typo.code == 2);
  CHECK(holds(typo.err, "did you mean 'open-meteo'?"));
  const Run stationless =
      desk.run({"fetch", "--latitude", "35.6", "--longitude", "-83.1", "--service", "ncei"});
  CHECK(stationless.code == 2);
  CHECK(holds(stationless.err, "station"));
  CHECK(desk.server.requests().empty());
}

TEST_CASE("a site without a time zone is remarked which clock cuts its days, and another clock begins anew",
          "[fetch]") {
  const FetchDesk desk{stand_in};
  const auto at = [&](const std::string& command, const std::vector<std::string>& more) {
    return desk.run(joined({command, "--latitude", "35.6", "--longitude", "-83.1", "--name", "course",
                            "--service-settings", desk.settings},
                           more));
  };
  const Run bare = at("fetch", {"--years", "6"});
  CHECK(bare.code == 0);
  CHECK(holds(bare.out, "cut at UTC-06:00"));
  CHECK(at("advise", {"--service", "open-meteo"}).code == 0);
  const Run zoned = at("advise", {"--service", "open-meteo", "--time-zone", "America/New_York"});
  CHECK(zoned.code == 3);
  CHECK(holds(zoned.err, "days of UTC-06:00"));
  CHECK(!holds(at("fetch", {"--years", "6", "--time-zone", "America/New_York"}).out, "whole hours"));
  CHECK(at("advise", {"--service", "open-meteo", "--time-zone", "America/New_York"}).code == 0);
}

TEST_CASE("a service named twice is a slip, and is said", "[fetch]") {
  const FetchDesk desk{stand_in};
  std::string twice = three_sites;
  const std::string entry = R"({"service":"open-meteo"})";
  twice.replace(twice.find(entry), entry.size(), entry + "," + entry);
  desk.file("sites.json", twice);
  const Run run = desk.fetch();
  CHECK(run.code == 2);
  CHECK(holds(run.err, "/0/weather/1/service"));
  CHECK(holds(run.err, "named twice"));
  CHECK(desk.run({"fetch", "--latitude", "35.6", "--longitude", "-83.1", "--service", "power", "--service",
                  "power"})
            .code == 2);
}

TEST_CASE("an answer whose every value is impossible is refused with what is wrong with it", "[fetch]") {
  const FetchDesk desk{[](const SeenRequest& request) {
    Reply reply = stand_in_answer(request, today);
    for (auto at = reply.body.find("\"temperature_2m\":["); at != std::string::npos;
         at = reply.body.find("\"temperature_2m\":[", at + 1)) {
      const auto end = reply.body.find(']', at);
      for (auto comma = reply.body.find(',', at); comma < end; comma = reply.body.find(',', comma + 2))
        reply.body[comma + 1] = '9';  // 17.3 becomes 97.3, beyond any weather
      reply.body.replace(at + 18, 2, "99");
    }
    return reply;
  }};
  const Run run = desk.fetch({"--only", "heron", "--no-members"});
  CHECK(run.code == 4);
  CHECK(holds(run.err, "temperatures are not weather"));
  CHECK(holds(run.err, "not in the unit they are labeled with"));
}
