// SPDX-License-Identifier: MIT
// The program's table of time zones against the system's own, by the C library and the date library.
#include "core/zone_rules.hpp"

#include <date/tz.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>
#include <set>

#include "core/time_zone.hpp"

using namespace soilclock;

namespace {

Instant start_of(int year) { return Instant{make_day(year, 1, 1)}; }

/// The version of the system's zone files; they may be newer than the table, and are then no measure for it.
bool system_has_the_same_version() {
  std::ifstream file{"/usr/share/zoneinfo/tzdata.zi"};
  std::string line;
  std::getline(file, line);
  if (line == "# version " + time_zone_version()) return true;
  std::cout << "SKIPPED: time zones against the system: the table is of " << time_zone_version()
            << ", the system says \"" << line << "\"; cmake/make_time_zones.py makes it anew\n";
  return false;
}

/// All but the names that mean whatever the machine is set to.
std::vector<std::string> system_names() {
  std::vector<std::string> names;
  for (const auto& zone : date::get_tzdb().zones) {
    if (zone.name() != "localtime" && zone.name() != "posixrules" && zone.name() != "Factory")
      names.push_back(zone.name());
  }
  return names;
}

/// Instants of a zone at which our clock and the C library's differ, asked every `step` from year to year.
int differences_from_c_library(const std::string& name, int from_year, int to_year, std::chrono::hours step) {
  setenv("TZ", (":" + name).c_str(), 1);
  tzset();
  const auto ours = ZoneRules::named(name);
  int wrong = 0;
  for (Instant at = start_of(from_year); at < start_of(to_year); at += step) {
    const std::time_t moment = at.time_since_epoch().count();
    std::tm local{};
    localtime_r(&moment, &local);
    const auto period = ours->period_at(at);
    wrong += period.offset.count() == local.tm_gmtoff && period.summer == (local.tm_isdst > 0) ? 0 : 1;
  }
  unsetenv("TZ");
  tzset();
  return wrong;
}

}  // namespace

TEST_CASE("the table says where it is from and knows the zones people name") {
  CHECK(time_zone_version().size() == 5);
  const auto names = time_zone_names();
  CHECK(names.size() > 500);
  CHECK(std::set<std::string>{names.begin(), names.end()}.size() == names.size());
  for (const char* name : {"America/New_York", "US/Eastern", "America/Los_Angeles", "Europe/Dublin", "UTC"})
    CHECK(ZoneRules::named(name) != nullptr);
  CHECK(ZoneRules::named("America") == nullptr);
  CHECK(ZoneRules::named("") == nullptr);
}

TEST_CASE("every zone of the system is in the table and changes when the system says, from 1970 to 2037") {
  if (!system_has_the_same_version()) {
    SUCCEED();
    return;
  }
  for (const std::string& name : system_names()) {
    CAPTURE(name);
    const auto ours = ZoneRules::named(name);
    REQUIRE(ours != nullptr);
    const date::time_zone& theirs = *date::locate_zone(name);
    int wrong = 0;
    for (Instant at = start_of(1970); at < start_of(2038);) {
      const date::sys_info info = theirs.get_info(at);
      const Instant end = std::min(info.end, start_of(2038));
      for (const Instant asked : {at, end - std::chrono::seconds{1}}) {
        const auto period = ours->period_at(asked);
        wrong +=
            period.offset == info.offset && period.summer == (info.save != std::chrono::minutes{0}) ? 0 : 1;
      }
      at = end;
    }
    CHECK(wrong == 0);
  }
}

TEST_CASE("no change of the table is unknown to the system, and its rules hold beyond 2037") {
  if (!system_has_the_same_version()) {
    SUCCEED();
    return;
  }
  for (const std::string& name : time_zone_names()) {
    CAPTURE(name);
    CHECK(differences_from_c_library(name, 1970, 2038, std::chrono::hours{24 * 5}) == 0);
    CHECK(differences_from_c_library(name, 2038, 2050, std::chrono::hours{24}) == 0);
    CHECK(differences_from_c_library(name, 2095, 2100, std::chrono::hours{24}) == 0);
  }
}

TEST_CASE("zones that changed sides keep the right clock where a rule taken too early would be wrong") {
  const auto offset_hours = [](const char* name, Day day) {
    return std::chrono::duration_cast<std::chrono::hours>(
               ZoneRules::named(name)->period_at(Instant{day} + std::chrono::hours{18}).offset)
        .count();
  };
  CHECK(offset_hours("America/Ojinaga", make_day(2022, 7, 1)) == -6);    // mountain daylight time
  CHECK(offset_hours("America/Ojinaga", make_day(2022, 11, 15)) == -6);  // central standard time
  CHECK(offset_hours("Asia/Tbilisi", make_day(1996, 12, 1)) == 5);       // summer time all winter
  CHECK(offset_hours("Asia/Tbilisi", make_day(1997, 12, 1)) == 4);
}

TEST_CASE("a period joins the next without a gap, in the table and far beyond it") {
  for (const char* name : {"America/New_York", "Africa/Casablanca", "Pacific/Chatham", "Asia/Kolkata"}) {
    CAPTURE(name);
    const auto zone = ZoneRules::named(name);
    REQUIRE(zone != nullptr);
    int seen = 0;
    int broken = 0;
    for (Instant at = start_of(1900); at < start_of(2400); ++seen) {
      const auto period = zone->period_at(at);
      broken += period.begin <= at && at < period.end ? 0 : 1;
      broken += zone->period_at(period.end - std::chrono::seconds{1}).begin == period.begin ? 0 : 1;
      at = period.end;
    }
    CHECK(broken == 0);
    CHECK(seen > 0);
  }
}

TEST_CASE("all that ask for a zone at a time share one copy of its rules") {
  const auto first = ZoneRules::named("America/New_York");
  CHECK(ZoneRules::named("America/New_York") == first);
  CHECK(ZoneRules::named("America/Chicago") != first);
}
