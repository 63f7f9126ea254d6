// SPDX-License-Identifier: MIT
// Forecast grids, station summaries and coarse grids through the same door, fetched and from saved answers.
#include <algorithm>
#include <catch2/catch.hpp>

#include "support/served_desk.hpp"
#include "support/service_records.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

/// A desk with one site, `weather` as its weather, and a service that answers by path.
class ServiceDesk : public ServedDesk {
 public:
  ServiceDesk(const std::string& place, const std::string& weather, LoopbackServer::Handler handler)
      : ServedDesk{std::move(handler)} {
    file("sites.json", R"({"id":"course","name":"Course",)" + place +
                           R"(,"turf":{"irrigated":true},"weather":)" + weather + "}");
  }
  Run run_for(const std::string& command, const std::vector<std::string>& more = {}) const {
    return run(joined({command, "--sites", path("sites.json"), "--service-settings", settings}, more));
  }
};

Reply not_here(const SeenRequest&) { return {404, R"({"error":true,"reason":"not here"})"}; }

std::string station_rows(Day begin, Day end) {
  std::string text =
      "\"STATION\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"DATE\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\","
      "\"TMIN_ATTRIBUTES\",\"PRCP\",\"PRCP_ATTRIBUTES\"\n";
  for (Day day = begin; day < end; day += Days{1}) {
    const double mean = 14.0 - 12.0 * std::cos((day_of_year(day) - 20) * 0.0172);
    text += fmt::format(
        "\"USC00000001\",\"35.70\",\"-83.00\",\"300.0\",\"{}\",\"{:7.1f}\",\",,7,0700\",\"{:7.1f}\","
        "\",,7,0700\",\"{:7.1f}\",\",,7,0700\"\n",
        iso(day), mean + 6.0, mean - 6.0, day_of_year(day) % 5 == 0 ? 8.0 : 0.0);
  }
  return text;
}

constexpr const char* upland = R"("latitude":35.6,"longitude":-83.1,"time_zone":"America/New_York")";

}  // namespace

TEST_CASE("station summaries are fetched in pieces of ten years and taken as measured", "[fetch]") {
  const ServiceDesk desk{
      upland, R"([{"service":"ncei","station":"USC00000001"}])", [](const SeenRequest& asked) {
        Reply reply;
        reply.content_type = "text/csv";
        reply.body = station_rows(*parse_iso_day(asked.parameters.at("startDate")),
                                  *parse_iso_day(asked.parameters.at("endDate")) + Days{1});
        return reply;
      }};
  const Run fetched = desk.run_for("fetch", {"--format", "json"});
  INFO(fetched.err);
  REQUIRE(fetched.code == 0);
  REQUIRE(desk.server.requests().size() == 2);  // 2014 to 2019, 2020 to 2026
  for (const SeenRequest& request : desk.server.requests()) {
    CHECK(request.parameters.at("stations") == "USC00000001");
    CHECK(request.parameters.at("units") == "metric");
  }
  const Json report = fetched.json();
  CHECK(report["sites"][0]["parts"][0]["station"] == "USC00000001");
  CHECK(report["sites"][0]["parts"][0]["first"] == "2014-01-01");
  const Run advised = desk.run_for("advise");
  INFO(advised.err);
  CHECK(advised.code == 0);
  CHECK(holds(advised.out, "GHCN-Daily"));
}

TEST_CASE("a station that is silent for the days asked for is no failure", "[fetch]") {
  const Day since = make_day(2026, 10, 1);
  const ServiceDesk desk{upland, R"([{"service":"ncei","station":"USC00000001"}])",
                         [&](const SeenRequest& asked) {
                           Reply reply;
                           reply.content_type = "text/csv";
                           const Day end = *parse_iso_day(asked.parameters.at("endDate")) + Days{1};
                           const Day begin = *parse_iso_day(asked.parameters.at("startDate"));
                           reply.body = station_rows(begin, std::min(since, end));
                           return reply;
                         }};
  REQUIRE(desk.run_for("fetch").code == 0);
  REQUIRE(desk.run_for("fetch").code == 0);  // only October is asked for, and nobody has it
  CHECK(desk.run_for("advise", {"--on", "2026-10-05"}).code == 0);
}

TEST_CASE("a station on the other side of the country is not taken for the site", "[fetch]") {
  const ServiceDesk desk{R"("latitude":45.6,"longitude":-123.1,"time_zone":"America/Los_Angeles")",
                         R"([{"service":"ncei","station":"USC00000001"}])", [](const SeenRequest&) {
                           Reply reply;
                           reply.content_type = "text/csv";
                           reply.body = station_rows(make_day(2026, 9, 1), make_day(2026, 10, 1));
                           return reply;
                         }};
  const Run run = desk.run_for("fetch");
  CHECK(run.code == 4);
  CHECK(holds(run.err, "is for another place"));
  CHECK(holds(run.err, "35.70 -83.00"));
}

TEST_CASE("the forecast grid is found by way of the point, and its days follow the user's own file",
          "[records][fetch]") {
  const auto grid = recorded_answer("api_samples/nws/gridpoint_tae_2022-02-04.json");
  std::string address;
  ServiceDesk desk{
      R"("latitude":30.02,"longitude":-84.98,"time_zone":"America/New_York")",
      R"([{"file":"own.csv"},{"service":"nws"}])", [&](const SeenRequest& asked) {
        if (asked.path == "/points/30.02,-84.98") {
          return Reply{200, R"({"properties":{"forecastGridData":")" + address + "/gridpoints/TAE/58,65\"}}",
                       "application/geo+json"};
        }
        return asked.path == "/gridpoints/TAE/58,65" ? Reply{200, grid, "application/geo+json"}
                                                     : not_here(asked);
      }};
  address = desk.server.url();
  desk.file("own.csv", made_up_weather(make_day(2016, 1, 1), 2225));     // to 2022-02-02
  desk.now = Instant{make_day(2022, 2, 4)} + std::chrono::minutes{200};  // the evening of the 3rd there
  const Run fetched = desk.run_for("fetch");
  INFO(fetched.err + fetched.out);
  REQUIRE(fetched.code == 0);
  for (const SeenRequest& request : desk.server.requests()) {
    CHECK(request.headers.at("accept") == "application/geo+json");
    CHECK(holds(request.headers.at("user-agent"), "(turf@club.example)"));
  }
  const auto days = desk.stored({"course",
                                 "nws",
                                 records::WeatherPart::forecast,
                                 "",
                                 {30.02, -84.98, {}},
                                 "UTC-05:00",
                                 "local standard time"});
  const auto on = [&](Day day) {
    for (const records::StoredDay& stored : days) {
      if (stored.day == day) return stored;
    }
    return records::StoredDay{};
  };
  CHECK(on(make_day(2022, 2, 4)).maximum->celsius() == Approx(22.22).margin(0.01));
  CHECK(on(make_day(2022, 2, 4)).minimum->celsius() == Approx(17.78).margin(0.01));
  CHECK(on(make_day(2022, 2, 4)).rain->mm() == Approx(14.224).margin(0.001));
  CHECK(on(make_day(2022, 2, 10)).maximum->celsius() == Approx(18.33).margin(0.01));
  CHECK(!on(make_day(2022, 2, 11)).rain);
  const Run advised = desk.run_for("advise", {"--on", "2022-02-04", "--format", "json"});
  INFO(advised.err);
  REQUIRE(advised.code == 0);
  const Json answer = advised.json();
  CHECK(answer["sites"][0]["weather"]["last_measured"] == "2022-02-02");
  CHECK(answer["sites"][0]["weather"]["last_forecast"] == "2022-02-10");
}

TEST_CASE("a service that asks for a contact is not called without one", "[fetch]") {
  const ServiceDesk desk{upland, R"([{"service":"nws"}])", not_here};
  std::string settings = settings_for(desk.server);
  settings.erase(settings.find("\"contact\""), std::string{R"("contact":"turf@club.example",)"}.size());
  desk.file("settings.json", settings);
  const Run run = desk.run_for("fetch");
  CHECK(run.code == 2);
  CHECK(holds(run.err, "asks every caller for a contact"));
  CHECK(desk.server.requests().empty());
}

TEST_CASE("an outage of a grid is reported in the service's own words after a few tries",
          "[records][fetch]") {
  const auto problem = recorded_answer("api_samples/nws/error_503_forecast_grid_expired.json");
  const ServiceDesk desk{upland, R"([{"service":"nws"}])", [&](const SeenRequest&) {
                           return Reply{503, problem, "application/problem+json"};
                         }};
  const Run run = desk.run_for("fetch");
  CHECK(run.code == 4);
  CHECK(desk.server.requests().size() > 2);
  CHECK(holds(run.err, "503"));
}

TEST_CASE("a coarse grid gives days of solar time, and its missing code is no weather", "[fetch]") {
  const ServiceDesk desk{
      upland, R"([{"service":"power"}])", [](const SeenRequest& asked) {
        std::string high;
        std::string low;
        std::string rain;
        const auto day_of = [](const std::string& text) {
          return *parse_iso_day(text.substr(0, 4) + "-" + text.substr(4, 2) + "-" + text.substr(6));
        };
        const Day end = day_of(asked.parameters.at("end")) + Days{1};
        for (Day day = day_of(asked.parameters.at("start")); day < end; day += Days{1}) {
          const bool known = day < make_day(2026, 10, 12);
          const CivilDate d = civil(day);
          const std::string name = fmt::format("\"{:04}{:02}{:02}\":", d.year, d.month, d.day);
          const std::string comma = high.empty() ? "" : ",";
          const double mean = 14.0 - 12.0 * std::cos((day_of_year(day) - 20) * 0.0172);
          high += comma + name + fmt::format("{:.2f}", known ? mean + 5.0 : -999.0);
          low += comma + name + fmt::format("{:.2f}", known ? mean - 5.0 : -999.0);
          rain += comma + name + (known ? "0.5" : "-999.0");
        }
        Reply reply;
        reply.body = fmt::format(
            R"({{"type":"Feature","geometry":{{"type":"Point","coordinates":[-83.1,35.6,400.0]}},)"
            R"("properties":{{"parameter":{{"T2M_MAX":{{{}}},"T2M_MIN":{{{}}},"PRECTOTCORR":{{{}}}}}}},)"
            R"("header":{{"fill_value":-999.0,"time_standard":"LST"}},"messages":[],"parameters":)"
            R"({{"T2M_MAX":{{"units":"C"}},"T2M_MIN":{{"units":"C"}},"PRECTOTCORR":{{"units":"mm/day"}}}}}})",
            high, low, rain);
        return reply;
      }};
  const Run fetched = desk.run_for("fetch", {"--format", "json"});
  INFO(fetched.err);
  REQUIRE(fetched.code == 0);
  const Json report = fetched.json();
  CHECK(report["sites"][0]["parts"][0]["last"] == "2026-10-11");
  CHECK(report["sites"][0]["parts"][0]["days"] == (make_day(2026, 10, 12) - make_day(2014, 1, 1)).count());
  const Run advised = desk.run_for("advise");
  CHECK(advised.code == 0);
  CHECK(holds(advised.out, "POWER Project"));
}

TEST_CASE("a saved answer is taken in without a network and answered from", "[records][fetch]") {
  const auto saved = recorded_answer("api_samples/open_meteo/archive_daily_nyc_10y_fahrenheit.json");
  ServiceDesk desk{R"("latitude":40.71,"longitude":-74.0,"time_zone":"America/New_York")",
                   R"([{"service":"open-meteo"},{"service":"nws"}])", not_here};
  desk.file("saved.json", saved);
  const Run taken = desk.run_for(
      "fetch", {"--saved", desk.path("saved.json"), "--saved-on", "2026-02-14", "--format", "json"});
  INFO(taken.err);
  REQUIRE(taken.code == 0);
  const Json report = taken.json();
  CHECK(report["sites"][0]["parts"][0]["part"] == "history");
  CHECK(report["sites"][0]["parts"][0]["first"] == "2016-02-15");
  CHECK(desk.server.requests().empty());
  const Run advised = desk.run_for("advise", {"--on", "2025-10-15", "--format", "json"});
  INFO(advised.err);
  CHECK(advised.code == 0);
  CHECK(advised.json()["sites"][0]["weather"]["last_measured"] == "2025-10-14");
}

TEST_CASE("a saved answer for another place, of another service or that is none is refused with its place",
          "[fetch]") {
  const ServiceDesk desk{upland, R"([{"service":"open-meteo"}])", not_here};
  const auto take = [&](const std::string& text) {
    return desk.run_for("fetch", {"--saved", desk.file("saved.json", text), "--saved-on", "2026-10-14"});
  };
  const std::string far = stand_in_point(45.0, 7.0, make_day(2026, 9, 1), make_day(2026, 9, 20), 0, false);
  CHECK(take(far).code == 3);
  CHECK(holds(take(far).err, "is for another place"));
  CHECK(take("").code == 3);
  CHECK(take("<html></html>").code == 3);
  CHECK(take("{\"a\":1}").code == 3);
  CHECK(desk.run_for("fetch", {"--saved", desk.path("absent.json")}).code == 2);
  CHECK(desk.run_for("advise").code == 3);
}

TEST_CASE("a saved forecast counts as given on the day it was saved", "[fetch]") {
  const ServiceDesk desk{upland, R"([{"file":"own.csv"},{"service":"open-meteo"}])", not_here};
  desk.file("own.csv", made_up_weather(make_day(2016, 1, 1), 3938));  // to 2026-10-12
  const std::string saved = desk.file(
      "saved.json", stand_in_point(35.6, -83.1, make_day(2026, 9, 20), make_day(2026, 10, 25), 0, true));
  REQUIRE(desk.run_for("fetch", {"--saved", saved, "--saved-on", "2026-10-13"}).code == 0);
  const Json answer = desk.run_for("advise", {"--format", "json"}).json();
  CHECK(answer["sites"][0]["weather"]["last_measured"] == "2026-10-12");
  CHECK(answer["sites"][0]["weather"]["last_forecast"] == "2026-10-23");
  const Json before = desk.run_for("advise", {"--on", "2026-10-12", "--format", "json"}).json();
  CHECK(before["sites"][0]["weather"]["last_forecast"].is_null());
}

TEST_CASE("the bias of a service against the user's own file is reported, and taken out on demand",
          "[fetch]") {
  const auto advice = [](const std::string& service) {
    ServiceDesk desk{upland, R"([{"file":"own.csv"},)" + service + "]",
                     [](const SeenRequest& asked) { return stand_in_answer(asked, make_day(2026, 10, 15)); }};
    std::string own = "date,tmin_c,tmax_c\n";
    for (Day day = make_day(2024, 1, 1); day < make_day(2026, 10, 1); day += Days{1}) {
      double low = 99.0;
      double high = -99.0;
      for (int hour = 5; hour < 29; ++hour) {
        low = std::min(low, invented_air(35.6, day + Days{hour / 24}, hour % 24));
        high = std::max(high, invented_air(35.6, day + Days{hour / 24}, hour % 24));
      }
      own += fmt::format("{},{:.1f},{:.1f}\n", iso(day), low - 2.0, high - 1.0);  // a cold hollow
    }
    desk.file("own.csv", own);
    REQUIRE(desk.run_for("fetch", {"--years", "6"}).code == 0);
    return desk.run_for("advise", {"--details"}).out;
  };
  // Lines are broken for reading; the words are what counts here.
  const auto words = [](std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    for (auto at = text.find("  "); at != std::string::npos; at = text.find("  ")) text.erase(at, 1);
    return text;
  };
  const std::string answer_text = words(advice(R"({"service":"open-meteo"})"));
  CHECK(holds(answer_text, "is 3.6 F warmer in the minimum and 1.8 F warmer in the maximum"));
  CHECK(holds(answer_text, "it is used as it is"));
  const std::string removed = words(advice(R"({"service":"open-meteo","remove_bias":true})"));
  CHECK(holds(removed, "this is taken out"));
}

TEST_CASE("sites beyond what one request holds are split, and each is kept under its own id", "[fetch]") {
  Json sites = Json::array();
  for (int i = 0; i < 45; ++i) {
    sites.push_back({{"id", fmt::format("site-{}", i)},
                     {"latitude", 30.0 + 0.2 * i},
                     {"longitude", -83.0},
                     {"time_zone", "America/New_York"},
                     {"weather", {{{"service", "open-meteo"}}}}});
  }
  const ServiceDesk desk{upland, R"([{"service":"open-meteo"}])", [](const SeenRequest& asked) {
                           return stand_in_answer(asked, make_day(2026, 10, 15));
                         }};
  desk.file("sites.json", sites.dump());
  const Run run = desk.run_for("fetch", {"--years", "0", "--no-members", "--format", "json"});
  INFO(run.err);
  REQUIRE(run.code == 0);
  int history = 0;
  for (const SeenRequest& request : desk.server.requests()) {
    const auto places = numbers_of(request.parameters.at("latitude")).size();
    CHECK(places <= (request.path == "/v1/archive" ? 20 : 100));
    history += request.path == "/v1/archive" ? 1 : 0;
  }
  CHECK(history == 3);
  const auto warm = desk.stored({"site-0",
                                 "open-meteo",
                                 records::WeatherPart::history,
                                 "",
                                 {30.0, -83.0, {}},
                                 "UTC-05:00",
                                 "local standard time"});
  const auto cold = desk.stored({"site-44",
                                 "open-meteo",
                                 records::WeatherPart::history,
                                 "",
                                 {38.8, -83.0, {}},
                                 "UTC-05:00",
                                 "local standard time"});
  CHECK((*warm[100].maximum - *cold[100].maximum).kelvin() == Approx(8.8).margin(0.11));
}

TEST_CASE("one site that the service refuses does not keep the others from being fetched", "[fetch]") {
  Json sites = Json::array();
  for (const double latitude : {35.0, 36.0, 37.0}) {
    sites.push_back({{"id", fmt::format("at-{:.0f}", latitude)},
                     {"latitude", latitude},
                     {"longitude", -83.0},
                     {"time_zone", "America/New_York"},
                     {"weather", {{{"service", "open-meteo"}}}}});
  }
  const ServiceDesk desk{
      upland, R"([{"service":"open-meteo"}])", [](const SeenRequest& asked) {
        if (holds(asked.parameters.at("latitude"), "36"))
          return Reply{400, R"({"error":true,"reason":"No data is available for this location"})"};
        return stand_in_answer(asked, make_day(2026, 10, 15));
      }};
  desk.file("sites.json", sites.dump());
  const Run run = desk.run_for("fetch", {"--years", "0", "--no-members", "--format", "json"});
  CHECK(run.code == 1);
  const Json report = run.json();
  CHECK(report["sites"][0]["problems"].empty());
  CHECK(report["sites"][1]["problems"].size() == 1);
  CHECK(holds(run.err, "at-36: "));
  CHECK(report["sites"][2]["problems"].empty());
  CHECK(report["sites"][2]["parts"][0]["days"] == 287);
}
