// SPDX-License-Identifier: MIT
// What a service, a line or a killed process may do to a fetch, and what is left of the records afterwards.
#include <atomic>
#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <random>
#include <regex>

#include "records/service_calls.hpp"
#include "records/weather_store.hpp"
#include "support/child_process.hpp"
#include "support/command_run.hpp"
#include "support/loopback_server.hpp"
#include "support/stand_in_weather.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

const Day faults_day = make_day(2026, 10, 15);

constexpr const char* one_site =
    R"({"id":"heron","name":"Heron","latitude":35.6,"longitude":-83.1,"elevation_m":310,
        "time_zone":"America/New_York","turf":{"irrigated":true},"weather":[{"service":"open-meteo"}]})";

/// What the service does to the answers it would give; `number` counts its requests from 0.
using Spoil = std::function<Reply(const SeenRequest&, Reply good, int number)>;

class FaultyDesk : public Desk {
 public:
  FaultyDesk()
      : server{[this](const SeenRequest& request) {
          Reply good = stand_in_answer(request, day);
          return spoil ? spoil(request, std::move(good), number++) : good;
        }},
        settings{file("settings.json", settings_for(server))} {
    file("sites.json", one_site);
  }
  Run fetch() const {
    return run({"fetch", "--sites", path("sites.json"), "--service-settings", settings, "--years", years,
                "--format", "json"});
  }
  std::string advice() const {
    return run({"advise", "--sites", path("sites.json"), "--service-settings", settings, "--on", "2026-10-15",
                "--format", "json"})
        .out;
  }
  /// All days kept, as text.
  std::string stored() const {
    auto store = records::Store::open(records_path(), records::Access::existing).value();
    records::WeatherStore weather{store};
    std::string text;
    for (const auto part :
         {records::WeatherPart::history, records::WeatherPart::forecast, records::WeatherPart::members}) {
      const auto days = weather.days(
          {"heron", "open-meteo", part, "", {35.6, -83.1, 310.0}, "UTC-05:00", "local standard time"});
      for (const records::StoredDay& day_kept : days.value()) {
        text += fmt::format("{} {} {} {}\n", name(part), iso(day_kept.day),
                            day_kept.minimum ? day_kept.minimum->celsius() : -999.0,
                            day_kept.maximum ? day_kept.maximum->celsius() : -999.0);
      }
    }
    return text;
  }
  std::string records_path() const { return path("own-records/soilclock/records.db"); }

  std::string years = "2";
  Day day = faults_day;
  Spoil spoil;
  std::atomic<int> number{0};
  LoopbackServer server;
  std::string settings;
};

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
  return text;
}

Reply with_body(Reply reply, std::string body) {
  reply.body = std::move(body);
  return reply;
}

struct Fault {
  std::string name;
  Spoil spoil;
  bool survives = false;  ///< the fetch gets through all the same
  std::string message;    ///< part of what is said otherwise
};

std::vector<Fault> faults() {
  const auto always = [](const std::function<std::string(const std::string&)>& change) -> Spoil {
    return
        [change](const SeenRequest&, const Reply& good, int) { return with_body(good, change(good.body)); };
  };
  const auto first = [](int count, int status, const std::string& body) -> Spoil {
    return [=](const SeenRequest&, const Reply& good, int number) {
      return number < count ? Reply{status, body, "application/json"} : good;
    };
  };
  const auto reply = [](const Reply& bad) -> Spoil {
    return [bad](const SeenRequest&, const Reply&, int) { return bad; };
  };
  const std::regex numbers{R"("temperature_2m":\[[^\]]*\])"};
  return {
      {"429, then data", first(1, 429, R"({"error":true,"reason":"Minutely limit exceeded."})"), true, ""},
      {"500 twice, then data", first(2, 500, R"({"error":true,"reason":"trouble"})"), true, ""},
      {"503 as a web page", reply({503, "<html><body>busy</body></html>", "text/html"}), false, "503"},
      {"400 with a reason", reply({400, R"({"error":true,"reason":"out of range"})"}), false, "out of range"},
      {"JSON that stops and turns into words", always([](const std::string& body) {
         return body.substr(0, body.size() / 2) + "Unexpected error while";
       }),
       false, "cut"},
      {"a connection that ends within the body",
       [](const SeenRequest&, const Reply& good, int) {
         Reply cut;
         cut.raw = "HTTP/1.1 200 OK\r\nContent-Type: application/json\r\nContent-Length: " +
                   std::to_string(good.body.size()) + "\r\n\r\n" + good.body.substr(0, good.body.size() / 2);
         return cut;
       },
       false, "cut"},
      {"a web page with status 200", reply({200, "<!doctype html><html></html>", "text/html"}), false,
       "web page"},
      {"a redirect to another place without encryption",
       reply({302, "", "text/plain", {{"Location", "http://weather.example/v1/archive"}}}), false,
       "redirects to an address that may not be"},
      {"a redirect to a file", reply({302, "", "text/plain", {{"Location", "file:///etc/passwd"}}}), false,
       "redirects to an address that may not be"},
      {"a list of one instead of an object", always([](const std::string& body) { return "[" + body + "]"; }),
       true, ""},
      {"an empty list", always([](const std::string&) { return std::string{"[]"}; }), false, ""},
      {"all values null", always([numbers](const std::string& body) {
         std::string nulls = std::regex_replace(body, std::regex{R"(-?\d+\.\d,)"}, "null,");
         return std::regex_replace(nulls, std::regex{R"(,-?\d+\.\d\])"}, ",null]");
       }),
       false, ""},
      {"NaN in the text", always([](const std::string& body) {
         return std::regex_replace(body, std::regex{R"((temperature_2m":\[)-?\d+\.\d)"}, "$1NaN");
       }),
       false, ""},
      {"units nobody asked for", always([](const std::string& body) { return replaced(body, "°C", "°X"); }),
       false, "°X"},
      {"no units at all",
       always([](const std::string& body) { return replaced(body, "hourly_units", "units"); }), false,
       "unit"},
      {"arrays of different length", always([](const std::string& body) {
         return std::regex_replace(body, std::regex{R"((precipitation":\[)0\.00,)"}, "$1");
       }),
       false, ""},
      {"numbers as text", always([](const std::string& body) {
         return std::regex_replace(body, std::regex{R"((temperature_2m":\[)(-?\d+\.\d))"}, "$1\"$2\"");
       }),
       false, ""},
      {"the answer of another service", always([](const std::string&) {
         return std::string{
             R"({"type":"Feature","geometry":{"type":"Point","coordinates":[-83.1,35.6,300]},"properties":{"parameter":)"
             R"({"T2M_MAX":{"20261001":20.0},"T2M_MIN":{"20261001":10.0}}},"header":{"fill_value":-999.0,)"
             R"("time_standard":"LST"},"messages":[],"parameters":{"T2M_MAX":{"units":"C"},"T2M_MIN":{"units":"C"}}})"};
       }),
       false, ""},
      {"an address that is not there", reply({404, "not here", "text/plain"}), false, "404"},
  };
}

}  // namespace

TEST_CASE(
    "after every fault the series is right or one message is clear, and the records are as before or "
    "better",
    "[fetch]") {
  for (const Fault& fault : faults()) {
    CAPTURE(fault.name);
    FaultyDesk desk;
    REQUIRE(desk.fetch().code == 0);
    const std::string before = desk.stored();
    const std::string advice = desk.advice();
    // Three weeks later there is something to fetch again.
    desk.now += std::chrono::hours{24 * 21};
    desk.day += Days{21};
    desk.number = 0;
    desk.spoil = fault.spoil;
    const Run run = desk.fetch();
    CAPTURE(run.err);
    if (fault.survives) {
      CHECK(run.code == 0);
      CHECK(run.json()["sites"][0]["problems"].empty());
      CHECK(run.json()["sites"][0]["parts"][0]["last"] == "2026-11-04");
    } else {
      CHECK(run.code == 4);
      CHECK(holds(run.err, fault.message));
      CHECK(desk.stored() == before);
      CHECK(desk.advice() == advice);
    }
    desk.spoil = nullptr;
    CHECK(desk.fetch().code == 0);
  }
}

TEST_CASE("units that changed are read as what they are", "[fetch]") {
  FaultyDesk desk;
  desk.spoil = [](const SeenRequest&, const Reply& good, int) {
    std::string body = replaced(good.body, "°C", "°F");
    std::string converted;
    std::size_t at = 0;
    for (auto list = body.find("\"temperature_2m"); list != std::string::npos;
         list = body.find("\"temperature_2m", at)) {
      const auto begin = body.find_first_of("[,}", list);
      converted += body.substr(at, begin - at);
      at = begin;
      if (body[begin] != '[') continue;
      const auto end = body.find(']', begin);
      std::string comma = "[";
      for (const double celsius : numbers_of(body.substr(begin + 1, end - begin - 1))) {
        converted += fmt::format("{}{:.2f}", comma, celsius * 1.8 + 32.0);
        comma = ",";
      }
      at = end;
    }
    converted += body.substr(at);
    return with_body(good, converted);
  };
  REQUIRE(desk.fetch().code == 0);
  FaultyDesk plain;
  REQUIRE(plain.fetch().code == 0);
  auto stored = records::Store::open(plain.records_path(), records::Access::existing).value();
  auto changed = records::Store::open(desk.records_path(), records::Access::existing).value();
  const records::SeriesKey key{
      "heron",     "open-meteo",         records::WeatherPart::history, "", {35.6, -83.1, 310.0},
      "UTC-05:00", "local standard time"};
  const auto a = records::WeatherStore{stored}.days(key).value();
  const auto b = records::WeatherStore{changed}.days(key).value();
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    REQUIRE(a[i].minimum.has_value() == b[i].minimum.has_value());
    if (a[i].minimum) REQUIRE((*a[i].minimum - *b[i].minimum).kelvin() == Approx(0.0).margin(0.01));
  }
}

TEST_CASE("an archive that has lost days again does not take them from the records", "[fetch]") {
  FaultyDesk desk;
  REQUIRE(desk.fetch().code == 0);
  const std::string advice = desk.advice();
  desk.now += std::chrono::hours{24};
  desk.spoil = [](const SeenRequest& request, const Reply& good, int) {
    if (request.path != "/v1/archive") return good;
    // Of eleven days asked for again only the last three are known.
    std::string body;
    int commas = 0;
    const auto begin = good.body.find("\"temperature_2m\":[") + 18;
    body = good.body.substr(0, begin);
    std::size_t at = begin;
    while (good.body[at] != ']') {
      const std::size_t end = good.body.find_first_of(",]", at);
      body += commas < 9 * 24 ? "null" : good.body.substr(at, end - at);
      if (good.body[end] == ',') body += ',';
      ++commas;
      at = good.body[end] == ',' ? end + 1 : end;
    }
    return with_body(good, body + good.body.substr(at));
  };
  const Run run = desk.fetch();
  INFO(run.out);
  CHECK(run.code == 0);
  CHECK(run.json()["sites"][0]["parts"][0]["spared_days"] > 5);
  bool remarked = false;
  const Json report = run.json();
  for (const Json& remark : report["sites"][0]["remarks"])
    remarked = remarked || remark["code"] == "days-spared";
  CHECK(remarked);
  CHECK(desk.run({"advise", "--sites", desk.path("sites.json"), "--service-settings", desk.settings,
                  "--format", "json"})
            .json()["sites"][0]["weather"]["missing_days"] == 0);
}

TEST_CASE("a process killed at any moment of a fetch leaves whole answers and a file that opens", "[fetch]") {
  FaultyDesk desk;
  desk.years = "5";
  std::mt19937 random{20261125};
  const auto whole_years = [&] {
    // Killed before it had made the folder.
    if (!std::filesystem::exists(std::filesystem::path{desk.records_path()}.parent_path())) return 0;
    auto store = records::Store::open(desk.records_path(), records::Access::create);
    if (!store) FAIL(describe(store.error()));
    CHECK(std::get<std::string>(store->database().single("PRAGMA quick_check")) == "ok");
    std::map<int, int> days_of_year;
    records::WeatherStore weather{*store};
    const auto days = weather.days({"heron",
                                    "open-meteo",
                                    records::WeatherPart::history,
                                    "",
                                    {35.6, -83.1, 310.0},
                                    "UTC-05:00",
                                    "local standard time"});
    REQUIRE(days);
    for (const records::StoredDay& day : *days) {
      CHECK((day.minimum && day.maximum && day.rain));
      if (day.day >= make_day(2021, 1, 1)) ++days_of_year[civil(day.day).year];
    }
    int years = 0;
    for (const auto& [year, count] : days_of_year) {
      CAPTURE(year);
      const int whole = year == 2026 ? 287 : year == 2024 ? 366 : 365;
      CHECK(count == whole);
      years += count == whole ? 1 : 0;
    }
    return years;
  };
  int most = 0;
  int rounds = 0;
  for (; rounds < 200 && most < 6; ++rounds) {
    ChildProcess child{[&](int) { return desk.fetch().code; }};
    // Longer and longer, twice as long every fourteen rounds, so that a slow machine gets through in the end,
    // too.
    std::uniform_int_distribution<int> moment{1, static_cast<int>(60 * std::pow(1.05, rounds))};
    std::this_thread::sleep_for(std::chrono::milliseconds{moment(random)});
    child.kill_now();
    child.wait();
    const int now = whole_years();
    CHECK(now >= most);  // what was kept stays, and the next run goes on from there
    most = now;
  }
  CAPTURE(rounds);
  CHECK(most == 6);
  CHECK(desk.fetch().code == 0);
}

TEST_CASE("when the calls of a day are used up the rest waits for tomorrow, and what came is stored",
          "[fetch]") {
  FaultyDesk desk;
  std::string settings = settings_for(desk.server);
  // One course of five years counts 24 calls or so; the limit is not the user's to set, so it is used up.
  {
    auto store = records::Store::open(desk.records_path(), records::Access::create);
    REQUIRE(!store);  // the folder is not there yet
  }
  REQUIRE(desk.run({"fetch", "--sites", desk.path("sites.json"), "--service-settings", desk.settings,
                    "--years", "0"})
              .code == 0);
  {
    auto store = records::Store::open(desk.records_path(), records::Access::existing).value();
    REQUIRE(records::ServiceCalls{store}.add("open-meteo", {desk.now, 9975.0}));
  }
  const Run run = desk.fetch();
  CHECK(run.code == 1);
  CHECK(holds(run.err, "allows in a day are used up"));
  CHECK(holds(run.err, "tomorrow"));
  desk.now += std::chrono::hours{24};
  desk.day += Days{1};
  CHECK(desk.fetch().code == 0);
}

TEST_CASE("a service that uses up the time of one answer is left alone, and the rest goes on", "[fetch]") {
  // Two pauses of 55 s, counted and not waited for, leave no room for a third within two minutes.
  FaultyDesk desk;
  desk.spoil = [](const SeenRequest&, const Reply&, int) {
    return Reply{503, "{}", "application/json", {{"Retry-After", "55"}}};
  };
  const Run fetch = desk.fetch();
  CHECK(fetch.code == 4);
  CHECK(holds(fetch.err, "was too slow and was left alone"));
  CHECK(desk.server.requests().size() == 3);
}
