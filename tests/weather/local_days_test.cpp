// SPDX-License-Identifier: MIT
// Hours of UTC cut into days of local standard time, over whole years with both changes of the clock. The
// second route is the C library's own rules: its wall clock of every hour, less what summer time adds.
#include <stdlib.h>
#include <time.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "service_texts.hpp"
#include "support/reference_station.hpp"
#include "weather/hour_days.hpp"

using namespace weather_texts;
using namespace service_texts;
using soilclock::Day;
using soilclock::Days;

namespace {

/// Sets the zone of the C library for one test.
class CLibraryZone {
 public:
  explicit CLibraryZone(const std::string& name) {
    if (const char* old = getenv("TZ")) before_ = old;
    setenv("TZ", name.c_str(), 1);
    tzset();
  }
  CLibraryZone(const CLibraryZone&) = delete;
  CLibraryZone& operator=(const CLibraryZone&) = delete;
  ~CLibraryZone() {
    if (before_)
      setenv("TZ", before_->c_str(), 1);
    else
      unsetenv("TZ");
    tzset();
  }
  static long offset(Instant at) {
    const auto seconds = static_cast<time_t>(at.time_since_epoch().count());
    tm parts{};
    localtime_r(&seconds, &parts);
    return parts.tm_gmtoff;
  }
  /// The smaller of the year's offsets: standard time wherever summer time adds to it.
  static long standard_offset(int year) {
    long least = 24 * 3600;
    for (Day day = soilclock::make_day(year, 1, 1); day < soilclock::make_day(year + 1, 1, 1); day += Days{1})
      least = std::min(least, offset(Instant{day}));
    return least;
  }

 private:
  std::optional<std::string> before_;
};

struct Extremes {
  int hours = 0;
  double low = 99.0;
  double high = -99.0;
};

/// A measured year of daily extremes: lowest at 05:00 and highest at 15:00 of standard time, a straight line
/// between. The measured values come back from the hours when, and only when, the days are cut right.
std::vector<double> hours_of_measured_days(const soilclock::tests::ReferenceStation& station, int days) {
  std::vector<double> hours;
  const Day first = soilclock::make_day(2020, 1, 1);
  double low = 0.0;
  double high = 10.0;
  for (int i = 0; i < days; ++i) {
    // A day without measurement repeats the one before it; it only has to be a day.
    if (const auto t = station.air_min.at(first + Days{i})) low = t->celsius();
    if (const auto t = station.air_max.at(first + Days{i})) high = t->celsius();
    for (int hour = 0; hour < 24; ++hour) {
      const double share = hour < 5     ? 0.5
                           : hour == 5  ? 0.0
                           : hour < 15  ? (hour - 5) / 10.0
                           : hour == 15 ? 1.0
                                        : 0.4;
      hours.push_back(low + (high - low) * share);
    }
  }
  return hours;
}

void check_year(const std::string& zone, int year, int days, const std::vector<double>& by_local_hour) {
  CAPTURE(zone, year);
  const CLibraryZone c_library{zone};
  const std::chrono::seconds standard{CLibraryZone::standard_offset(year)};
  const Instant first = Instant{soilclock::make_day(year, 1, 1)} - standard;
  REQUIRE(by_local_hour.size() == static_cast<std::size_t>(days) * 24);
  soilclock::weather::HourlyValues values;
  values.air = by_local_hour;
  values.rain.assign(by_local_hour.size(), 0.5);
  std::map<Day, Extremes> slow;
  bool summer = false;
  for (std::size_t i = 0; i < by_local_hour.size(); ++i) {
    const Instant at = first + std::chrono::hours{static_cast<int>(i)};
    values.stamps.push_back(at);
    const std::chrono::seconds wall{CLibraryZone::offset(at)};
    summer = summer || wall != standard;
    Extremes& day = slow[date::floor<Days>(at + standard)];
    ++day.hours;
    day.low = std::min(day.low, by_local_hour[i]);
    day.high = std::max(day.high, by_local_hour[i]);
  }
  CHECK(summer);
  soilclock::weather::ReadingNotes notes{"year"};
  ParsedFile reading;
  cut_into_days(values, soilclock::weather::StandardClock{*TimeZone::named(zone)}, {}, reading, notes);
  CHECK(notes.finished().empty());
  CHECK(reading.days_with_data == days);
  CHECK(reading.partial_days == 0);
  CHECK(soilclock::iso(*reading.first_date) == fmt::format("{}-01-01", year));
  CHECK(soilclock::iso(*reading.last_date) == fmt::format("{}-12-31", year));
  std::map<Day, int> hours_of_day;
  for (const auto& hour : reading.hours) ++hours_of_day[hour.day];
  CHECK(hours_of_day.size() == slow.size());
  int different = 0;
  for (const auto& [day, extremes] : slow) {
    const auto low = reading.daily.air_min.at(day);
    const auto high = reading.daily.air_max.at(day);
    const bool same = hours_of_day[day] == 24 && extremes.hours == 24 && low && high &&
                      low->celsius() == extremes.low && high->celsius() == extremes.high;
    different += same ? 0 : 1;
  }
  CHECK(different == 0);
  // Rain of the hour before the first stamp is not there, and the last hour's is stamped in the next year.
  CHECK(reading.daily.rain.count_missing() <= 1);
  CHECK(reading.daily.rain.at(soilclock::make_day(year, 7, 1))->mm() == Approx(12.0));
}

}  // namespace

TEST_CASE("a year of UTC hours gives every day of local standard time its 24 hours, in both hemispheres") {
  const auto folder = soilclock::tests::record_folder("uscrn");
  if (!folder) return;
  const auto station = soilclock::tests::read_reference_station(*folder / "CRND0103-2020-NC_Durham_11_W.txt");
  const auto leap = hours_of_measured_days(station, 366);
  const auto common = hours_of_measured_days(station, 365);
  // Summer time in the north, in the south, with half an hour of zone and with half an hour of summer time;
  // Ireland's rules are written the other way round.
  for (const char* zone :
       {"America/New_York", "America/Los_Angeles", "Europe/Dublin", "Australia/Sydney", "Pacific/Auckland",
        "Australia/Adelaide", "Australia/Lord_Howe", "America/Asuncion"}) {
    check_year(zone, 2020, 366, leap);
    check_year(zone, 2021, 365, common);
  }
}

TEST_CASE("measured days come back from their hours sent as an answer in UTC") {
  const auto folder = soilclock::tests::record_folder("uscrn");
  if (!folder) return;
  const auto station = soilclock::tests::read_reference_station(*folder / "CRND0103-2020-NC_Durham_11_W.txt");
  const auto text = hourly_answer(Instant{soilclock::make_day(2020, 1, 1)} + std::chrono::hours{5},
                                  hours_of_measured_days(station, 366));
  const auto read = answer(text, in_zone("America/New_York"));
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(reading.days_with_data == 366);
  int compared = 0;
  for (Day day = station.air_max.first(); day <= station.air_max.last(); day += Days{1}) {
    const auto measured = station.air_max.at(day);
    if (!measured || !station.air_min.at(day)) continue;
    // The text carries two decimals, the record one.
    CHECK(reading.daily.air_max.at(day)->celsius() == Approx(measured->celsius()).margin(0.0051));
    CHECK(reading.daily.air_min.at(day)->celsius() ==
          Approx(station.air_min.at(day)->celsius()).margin(0.0051));
    ++compared;
  }
  CHECK(compared >= 364);
  // The same hours cut by UTC would give other days.
  const auto by_utc = answer(text, in_zone("UTC"));
  int moved = 0;
  for (Day day = station.air_max.first(); day <= station.air_max.last(); day += Days{1}) {
    const auto low = by_utc->series.front().reading.daily.air_min.at(day);
    moved += low && *low != *reading.daily.air_min.at(day) ? 1 : 0;
  }
  CHECK(moved > 30);
}
