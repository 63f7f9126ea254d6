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

TEST_CASE("an offset from UTC is read in the forms that files and services write") {
  using std::chrono::minutes;
  const auto read = [](const char* text) { return parse_utc_offset(text); };
  CHECK(read("Z") == std::chrono::seconds{0});
  CHECK(read("+05:30") == minutes{330});
  CHECK(read("-0500") == minutes{-300});
  CHECK(read("+9:30") == minutes{570});
  CHECK(read("-5") == minutes{-300});
  CHECK(read("+14:59") == minutes{899});
  for (const char* text :
       {"", "5", "+", "+15", "+05:3", "+05:60", "+530", "+05300", "+0a:00", "05:30", "z", "+5.5"}) {
    CAPTURE(text);
    CHECK_FALSE(read(text));
  }
}

TEST_CASE("an instant is read with Z, an offset or a fraction of a second") {
  const Instant at = Instant{make_day(2022, 2, 4)} + std::chrono::hours{3} + std::chrono::seconds{41};
  for (const char* text : {"2022-02-04T03:00:41Z", "2022-02-04T03:00:41+00:00", "2022-02-03T22:00:41-05:00",
                           "2022-02-04T08:30:41.125+05:30"}) {
    CAPTURE(text);
    CHECK(parse_iso_instant(text) == at);
  }
  for (const char* text :
       {"2022-02-04T03:00:41", "2022-02-04 03:00:41Z", "2022-02-04T03:00Z", "2022-02-30T03:00:41Z",
        "2022-02-04T3:00:41Z", "2022-02-04T24:00:00Z", "2022-02-04T03:00:41Z "}) {
    CAPTURE(text);
    CHECK_FALSE(parse_iso_instant(text));
  }
}

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
  const auto misspelled = TimeZone::named("America/New_Yrok");
  REQUIRE_FALSE(misspelled.has_value());
  CHECK(misspelled.error().family == Family::request);
  CHECK_THAT(describe(misspelled.error()), Catch::Contains("did you mean 'America/New_York'?"));
  for (const char* text : {"", "UTC+99:00", "UTC5", "UTC+a", "Mars/Base"}) {
    CAPTURE(text);
    CHECK_FALSE(TimeZone::named(text).has_value());
  }
}
