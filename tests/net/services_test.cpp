// SPDX-License-Identifier: MIT
#include "net/user_settings.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::net;
using Catch::Contains;
using soilclock::tests::source_text;

namespace {

std::string shipped_text() { return source_text("config/services.json"); }

Services shipped() {
  auto services = read_services(shipped_text(), "", "");
  if (!services) FAIL(describe(services.error()));
  return *std::move(services);
}

Services with(const std::string& users) {
  auto services = read_services(shipped_text(), users, "mine.json");
  if (!services) FAIL(describe(services.error()));
  return *std::move(services);
}

std::string refusal(const std::string& users) {
  const auto services = read_services(shipped_text(), users, "mine.json");
  if (services) return {};
  CHECK(services.error().family == Family::request);
  return describe(services.error());
}

}  // namespace

TEST_CASE("the shipped services are four, with the published limits of the one that has any") {
  const Services services = shipped();
  REQUIRE(services.all.size() == 4);
  const Service& grid = services.all.at("open-meteo");
  CHECK(grid.id == "open-meteo");
  CHECK(grid.hosts.at("history") == "https://archive-api.open-meteo.com");
  CHECK(grid.hosts.at("forecast") == "https://api.open-meteo.com");
  CHECK(grid.hosts.at("members") == "https://ensemble-api.open-meteo.com");
  CHECK(grid.limits.a_minute == 600.0);
  CHECK(grid.limits.an_hour == 5000.0);
  CHECK(grid.limits.a_day == 10000.0);
  CHECK(grid.points_a_call == 100);
  CHECK(grid.history_from == make_day(1940, 1, 1));
  CHECK(grid.provisional_days == 10);
  CHECK(services.all.at("nws").provisional_days == 1);
  CHECK(services.all.at("ncei").provisional_days == 30);
  CHECK_FALSE(services.all.at("nws").limits.a_day);
  for (const auto& [id, service] : services.all)
    CHECK(service.limits.least_pause == std::chrono::seconds{id == "nws" ? 1 : 0});
  CHECK_FALSE(services.all.at("nws").hosts.contains("history"));
}

TEST_CASE("one service asks for a contact, one keeps stations, and no key or contact is built in") {
  const Services services = shipped();
  CHECK(services.contact.empty());
  CHECK(services.ca_file.empty());
  for (const auto& [id, service] : services.all) {
    INFO(id);
    CHECK(service.needs_contact == (id == "nws"));
    CHECK((service.api == ServiceApi::ncei) == (id == "ncei"));
    CHECK(service.keeps_stations == (id == "ncei"));
    CHECK(service.cuts_days == (id == "ncei" || id == "power"));
    CHECK(service.takes_height == (id == "open-meteo"));
    CHECK(service.key.empty());
    CHECK_FALSE(service.title.empty());
    CHECK_FALSE(service.attribution.empty());
    CHECK_FALSE(service.license.empty());
    for (const auto& [name, url] : service.hosts) CHECK(url.starts_with("https://"));
  }
}

TEST_CASE("the grid service is credited as its license asks, and its terms are told") {
  const Service grid = shipped().all.at("open-meteo");
  CHECK_THAT(grid.attribution, Contains("Open-Meteo.com") && Contains("https://open-meteo.com/"));
  CHECK_THAT(grid.attribution, Contains("contains modified Copernicus Climate Change Service information"));
  CHECK_THAT(grid.attribution, Contains("neither the European Commission nor ECMWF is responsible"));
  CHECK_THAT(grid.license, Contains("CC BY 4.0") && Contains("https://creativecommons.org/licenses/by/4.0/"));
  CHECK_THAT(grid.terms, Contains("non-commercial") && Contains("key"));
}

TEST_CASE("the user's settings lie over the shipped ones and leave the rest as it was") {
  const Services services = with(R"({
    "contact": " turf@club.example ", "ca_file": "/etc/own.pem",
    "services": {"open-meteo": {"hosts": {"history": "https://own.example/"}}}})");
  CHECK(services.contact == "turf@club.example");
  CHECK(services.ca_file == "/etc/own.pem");
  CHECK(services.all.at("open-meteo").hosts.at("history") == "https://own.example");
  CHECK(services.all.at("open-meteo").hosts.at("forecast") == "https://api.open-meteo.com");
  CHECK(services.all.at("power").hosts == shipped().all.at("power").hosts);
}

TEST_CASE("a host may be this machine without encryption, no other") {
  const auto host = [](const std::string& url) {
    return R"({"services": {"power": {"hosts": {"history": ")" + url + R"("}}}})";
  };
  for (const char* good :
       {"http://127.0.0.1:8080", "http://localhost:1", "http://[::1]:9", "https://a.example/b"})
    CHECK(with(host(good)).all.at("power").hosts.at("history") == good);
  for (const char* bad : {"http://power.example", "ftp://a.example", "file:///etc/passwd", "a.example", "",
                          "https://me:pw@a.example", "https://", "http://127.0.0.1.a.example",
                          "https://a.example/?x=1", "https://a.example/#x", "https://a b.example"}) {
    INFO(bad);
    CHECK_THAT(refusal(host(bad)),
               Contains("mine.json at /services/power/hosts/history") && Contains("https://"));
  }
}

TEST_CASE("what is not known in the user's settings is named with its place") {
  CHECK_THAT(refusal(R"({"services": {"openmeteo": {}}})"),
             Contains("/services/openmeteo") && Contains("did you mean 'open-meteo'?"));
  CHECK_THAT(refusal(R"({"services": {"nws": {"hosts": {"history": "https://a.example"}}}})"),
             Contains("/services/nws/hosts/history") && Contains("forecast"));
  CHECK_THAT(refusal(R"({"contct": "a@b.example"})"), Contains("did you mean 'contact'?"));
  CHECK_THAT(refusal(R"({"services": {"nws": {"limits": {"a_day": 1e9}}}})"),
             Contains("/services/nws/limits"));
  CHECK_THAT(refusal(R"({"contact": 7})"), Contains("/contact"));
  CHECK_THAT(refusal(R"({"contact": "a\r\nX-Other: b"})"), Contains("control character"));
  CHECK_THAT(refusal("{"), Contains("mine.json:1"));
}

TEST_CASE("a key is taken only where it opens something") {
  CHECK_THAT(refusal(R"({"services": {"nws": {"key": "s3cret"}}})"), Contains("takes no key"));
  for (const char* key : {"", " ", "s3\\ncret", "s3\\u0000cret", "s3\\u007fcret", "s3cr\u00e9t"}) {
    INFO(key);
    CHECK_THAT(
        refusal(R"({"services": {"open-meteo": {"key": ")" + std::string{key} + R"(", "hosts": {}}}})"),
        Contains("/services/open-meteo/key") && Contains("one line"));
  }
}

TEST_CASE("a key goes to hosts that its owner named, and to no other") {
  const auto keyed = [](const std::string& hosts) {
    return R"({"services": {"open-meteo": {"key": "s3cret")" + hosts + "}}}";
  };
  CHECK_THAT(refusal(keyed("")),
             Contains("/services/open-meteo/key") && Contains("forecast, history and members"));
  CHECK_THAT(refusal(keyed(R"(, "hosts": null)")), Contains("forecast, history and members"));
  CHECK_THAT(refusal(keyed(R"(, "hosts": {})")), Contains("forecast, history and members"));
  CHECK_THAT(
      refusal(keyed(R"(, "hosts": {"forecast": "https://own.example"})")),
      Contains("history and members") && !Contains("forecast,") &&
          Contains(
              R"("hosts": {"forecast": "https://...", "history": "https://...", "members": "https://..."})"));
  CHECK_THAT(
      refusal(keyed(R"(, "hosts": {"history": "https://own.example", "forecast": "https://own.example"})")),
      Contains("members") && !Contains("history and"));
  const Service grid =
      with(keyed(R"(, "hosts": {"history": "https://a.example", "forecast": "https://b.example",
    "members": "https://c.example"})"))
          .all.at("open-meteo");
  CHECK(grid.key == "s3cret");
  const Service free = shipped().all.at("open-meteo");
  for (const auto& [name, url] : grid.hosts) CHECK(url != free.hosts.at(name));
}

TEST_CASE("no problem repeats a key, however the settings are spoiled") {
  for (
      const char* users :
      {R"({"services": {"open-meteo": {"key": "s3cret"}}})", R"({"services": {"nws": {"key": "s3cret"}}})",
       R"({"services": {"open-meteo": {"key": s3cret}}})",
       R"({"services": {"open-meteo": {"kye": "s3cret"}}})",
       R"({"services": {"openmeteo": {"key": "s3cret"}}})", R"({"services": [{"key": "s3cret"}]})",
       R"({"services": {"open-meteo": {"key": {"value": "s3cret"}}}})", R"("s3cret")",
       R"({"services": {"open-meteo": {"key": "s3cret", "hosts": ["s3cret"]}}})",
       R"({"services": {"open-meteo": {"key": "s3cret", "hosts": {"history": "https://s3cret@a.example"}}}})"}) {
    INFO(users);
    const std::string text = refusal(users);
    CHECK_FALSE(text.empty());
    CHECK_THAT(text, !Contains("s3cret"));
  }
}

TEST_CASE("every number of the shipped file must say where it is from") {
  std::string text = shipped_text();
  const auto begin = text.find("\"basis\"");
  text.erase(begin, text.find('\n', begin) - begin);
  text.erase(text.rfind(',', begin), 1);
  const auto services = read_services(text, "", "");
  REQUIRE_FALSE(services);
  CHECK(services.error().family == Family::fault);
  CHECK_THAT(describe(services.error()), Contains("basis"));
}

TEST_CASE("the least pause of the shipped file is of whole seconds, and one at least") {
  const std::string said = "\"least_pause_s\": 1";
  for (const char* bad : {"0", "-1", "1.5", "\"1\""}) {
    INFO(bad);
    std::string text = shipped_text();
    text.replace(text.find(said), said.size(), "\"least_pause_s\": " + std::string{bad});
    const auto services = read_services(text, "", "");
    REQUIRE_FALSE(services);
    CHECK(services.error().family == Family::fault);
    CHECK_THAT(describe(services.error()), Contains("/services/nws/limits/least_pause_s"));
  }
}

TEST_CASE("for how long a fetched day may change is the user's to say, in whole days") {
  const Services mine = with(R"({"services": {"ncei": {"provisional_days": 60}}})");
  CHECK(mine.all.at("ncei").provisional_days == 60);
  CHECK(mine.all.at("open-meteo").provisional_days == shipped().all.at("open-meteo").provisional_days);
  CHECK_THAT(refusal(R"({"services": {"ncei": {"provisional_days": 2.5}}})"),
             Contains("must be a whole number"));
  CHECK_THAT(refusal(R"({"services": {"ncei": {"provisional_days": -1}}})"), Contains("expected 0 to 365"));
}
