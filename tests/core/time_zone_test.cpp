// SPDX-License-Identifier: MIT
#include "core/time_zone.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <ctime>
#include <string>

using namespace soilclock;

namespace {

Instant utc(Day day, int hour, int minute = 0) {
  return Instant{day} + std::chrono::hours{hour} + std::chrono::minutes{minute};
}

TimeZone zone(const char* name) {
  auto result = TimeZone::named(name);
  REQUIRE(result.has_value());
  return *result;
}

int hours_of_wall_day(const TimeZone& zone, Day day) {
  int hours = 0;
  for (Instant at = utc(day, 0) - std::chrono::hours{24}; at < utc(day, 0) + std::chrono::hours{48};
       at += std::chrono::hours{1}) {
    hours += zone.wall_day(at) == day ? 1 : 0;
  }
  return hours;
}

/// Sets the C library's zone for one scope: the system's own rules are the second route.
class SystemZone {
 public:
  explicit SystemZone(const char* name) {
    const char* old = std::getenv("TZ");
    if (old != nullptr) before_ = old;
    had_one_ = old != nullptr;
    setenv("TZ", name, 1);
    tzset();
  }
  ~SystemZone() {
    if (had_one_)
      setenv("TZ", before_.c_str(), 1);
    else
      unsetenv("TZ");
    tzset();
  }
  SystemZone(const SystemZone&) = delete;
  SystemZone& operator=(const SystemZone&) = delete;

 private:
  std::string before_;
  bool had_one_ = false;
};

}  // namespace

TEST_CASE("days on which the clock changes have 23 and 25 hours by the wall and always 24 by standard time") {
  const TimeZone new_york = zone("America/New_York");
  const Day spring = make_day(2024, 3, 10);
  const Day autumn = make_day(2024, 11, 3);
  CHECK(hours_of_wall_day(new_york, spring) == 23);
  CHECK(hours_of_wall_day(new_york, autumn) == 25);
  CHECK(hours_of_wall_day(new_york, make_day(2024, 7, 1)) == 24);
  for (const Day day : {spring, autumn, make_day(2024, 7, 1)}) {
    int hours = 0;
    for (Instant at = utc(day, 0) - std::chrono::hours{24}; at < utc(day, 0) + std::chrono::hours{48};
         at += std::chrono::hours{1}) {
      hours += new_york.standard_day(at) == day ? 1 : 0;
    }
    CHECK(hours == 24);
  }
}

TEST_CASE("standard time stays on while the wall clock is in summer time") {
  const TimeZone new_york = zone("America/New_York");
  // 04:30 UTC on 1 July is 00:30 by the wall and 23:30 of the day before by standard time.
  CHECK(new_york.wall_day(utc(make_day(2024, 7, 1), 4, 30)) == make_day(2024, 7, 1));
  CHECK(new_york.standard_day(utc(make_day(2024, 7, 1), 4, 30)) == make_day(2024, 6, 30));
  CHECK(new_york.standard_offset(utc(make_day(2024, 7, 1), 0)) == std::chrono::hours{-5});
  CHECK(new_york.wall_offset(utc(make_day(2024, 7, 1), 0)) == std::chrono::hours{-4});
}

TEST_CASE("standard time is one offset all year, in both hemispheres and where the rules flag the winter") {
  const std::pair<const char*, int> minutes_of[]{{"America/New_York", -300}, {"Europe/Dublin", 0},
                                                 {"Europe/Berlin", 60},      {"Pacific/Chatham", 765},
                                                 {"Asia/Kolkata", 330},      {"Australia/Lord_Howe", 630},
                                                 {"America/Phoenix", -420},  {"Etc/UTC", 0},
                                                 {"Etc/GMT+5", -300},        {"Pacific/Honolulu", -600}};
  for (const auto& [name, minutes] : minutes_of) {
    CAPTURE(name);
    const TimeZone there = zone(name);
    int wrong = 0;
    for (Instant at = utc(make_day(2014, 6, 1), 0); at < utc(make_day(2027, 1, 1), 0);
         at += std::chrono::hours{6}) {
      wrong += there.standard_offset(at) == std::chrono::minutes{minutes} ? 0 : 1;
    }
    CHECK(wrong == 0);
  }
}

TEST_CASE("offsets agree with the system's own rules through a whole year in odd zones") {
  for (const char* name :
       {"America/New_York", "Europe/Dublin", "Pacific/Chatham", "Asia/Kolkata", "Australia/Lord_Howe"}) {
    CAPTURE(name);
    const TimeZone ours = zone(name);
    const SystemZone system{name};
    int wrong = 0;
    for (Instant at = utc(make_day(2024, 1, 1), 0); at < utc(make_day(2025, 1, 1), 0);
         at += std::chrono::hours{1}) {
      const std::time_t seconds = at.time_since_epoch().count();
      std::tm local{};
      localtime_r(&seconds, &local);
      wrong += ours.wall_offset(at).count() == local.tm_gmtoff ? 0 : 1;
    }
    CHECK(wrong == 0);
  }
}

TEST_CASE("fixed offsets are read, and what is no zone is refused with the nearest name") {
  CHECK(zone("UTC").wall_offset(utc(make_day(2024, 1, 1), 0)) == std::chrono::seconds{0});
  CHECK(zone("UTC-05:00").standard_offset(utc(make_day(2024, 7, 1), 0)) == std::chrono::hours{-5});
  CHECK(zone("GMT+9:30").wall_offset(utc(make_day(2024, 7, 1), 0)) == std::chrono::minutes{570});
  CHECK(TimeZone::fixed(-std::chrono::minutes{210}).name() == "UTC-03:30");
  const auto misspelt = TimeZone::named("America/New_Yrok");
  REQUIRE_FALSE(misspelt.has_value());
  CHECK(misspelt.error().family == Family::request);
  CHECK_THAT(describe(misspelt.error()), Catch::Contains("did you mean 'America/New_York'?"));
  for (const char* text : {"", "UTC+99:00", "UTC5", "UTC+a", "Mars/Base"}) {
    CAPTURE(text);
    CHECK_FALSE(TimeZone::named(text).has_value());
  }
}
