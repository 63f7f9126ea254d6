// SPDX-License-Identifier: MIT
// These tests stay on this machine, and that can be seen.
#include "support/no_way_out.hpp"

#include "support/asking.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using Catch::Contains;

TEST_CASE("whatever would leave this machine knocks at a door that counts") {
  const ClosedDoor door;
  lead_to(door);
  Asker asker;
  const std::string refusal = asker.refusal("https://api.open-meteo.com/v1/forecast?latitude=1");
  lead_to(*door_of_program());
  CHECK(door.knocks() == 1);
  CHECK(door_of_program()->knocks() == 0);
  CHECK_THAT(refusal, Contains("api.open-meteo.com"));
  CHECK(asker.pauses.empty());
}

TEST_CASE("a proxy named in the environment is used, and its refusal is told from the service's") {
  LoopbackServer proxy{[](const SeenRequest&) { return always(403, "no", "text/plain"); }};
  setenv("https_proxy", proxy.url().c_str(), 1);
  Asker asker;
  const std::string refusal = asker.refusal("https://api.weather.gov/points/1,2");
  lead_to(*door_of_program());
  CHECK_THAT(refusal, Contains("api.weather.gov") && Contains("proxy"));
  REQUIRE(proxy.requests().size() == 1);
  CHECK(proxy.requests()[0].method == "CONNECT");
  CHECK(proxy.requests()[0].target == "api.weather.gov:443");
}

TEST_CASE("plain text never takes the way over a proxy, even when the loopback is not excepted") {
  LoopbackServer server{[](const SeenRequest&) { return always(200, "{}"); }};
  for (const char* name : {"no_proxy", "NO_PROXY"}) unsetenv(name);
  Asker asker;
  const auto answer = asker.ask(server.url());
  lead_to(*door_of_program());
  CHECK(answer.has_value());
  CHECK(door_of_program()->knocks() == 0);
}
