// SPDX-License-Identifier: MIT
// Readings within a day: spikes, outages, stuck sensors, thin days, counters, hours handed upward.
#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

#include "weather_texts.hpp"

using namespace weather_texts;

namespace {

/// A file of whole days; `cells` writes what follows the stamp of an hour counted from the first.
std::string hourly(const std::string& heading, int days, const std::function<std::string(int)>& cells,
                   int step_hours = 1) {
  std::string text = heading + "\n";
  for (int hour = 0; hour < days * 24; hour += step_hours) {
    const Day day = soilclock::make_day(2024, 7, 10) + soilclock::Days{hour / 24};
    const std::string row = cells(hour);
    if (row.empty()) continue;
    text +=
        soilclock::iso(day) + (hour % 24 < 10 ? " 0" : " ") + std::to_string(hour % 24) + ":00," + row + "\n";
  }
  return text;
}

/// 10 at midnight, 22 at noon.
double wave(int hour) { return 10.0 + std::min(hour % 24, 24 - hour % 24); }

std::string number(double value) {
  std::string text = std::to_string(value);
  return text.substr(0, text.find('.') + 2);
}

}  // namespace

TEST_CASE("hours give the extremes and the sums of their days and are handed upward") {
  const auto reading = read(hourly("time,temp_c,rh_pct,wind (mph),rain_mm", 2,
                                   [](int h) { return number(wave(h)) + ",60,10,0.1"; }));
  CAPTURE(said(reading));
  CHECK(reading.outcome == Outcome::ok);
  CHECK(reading.step == "hourly");
  CHECK(low(reading, "2024-07-10") == 10.0);
  CHECK(high(reading, "2024-07-10") == 22.0);
  CHECK(rain(reading, "2024-07-11") == Approx(2.4));
  REQUIRE(reading.hours.size() == 48);
  CHECK(reading.hours[12].minute_of_day == 720);
  CHECK(reading.hours[12].air->celsius() == 22.0);
  CHECK(*reading.hours[12].humidity_percent == 60.0);
  CHECK(*reading.hours[12].wind_m_per_s == Approx(4.4704));
  CHECK(reading.hours[12].rain->mm() == Approx(0.1));
}

TEST_CASE("a spike inside the limits is found by its jumps to both sides") {
  const auto reading = read(hourly("time,temp_c", 1, [](int h) { return number(h == 6 ? -20.0 : wave(h)); }));
  CHECK(low(reading, "2024-07-10") == 10.0);
  CHECK(says(reading, "8:2 -20.0 C is more than 20 degrees away"));
}

TEST_CASE("zeros between warm readings are an outage, zeros of a frosty night are weather") {
  const auto outage =
      read(hourly("time,temp_c", 1, [](int h) { return number(h >= 11 && h < 14 ? 0.0 : wave(h)); }));
  CHECK(low(outage, "2024-07-10") == 10.0);
  CHECK(says(outage, "power failure"));
  const auto frost =
      read(hourly("time,temp_c", 1, [](int h) { return number(h < 5 ? 0.0 : wave(h) - 14.0); }));
  CHECK(frost.outcome == Outcome::ok);
  CHECK(low(frost, "2024-07-10") < 0.0);
}

TEST_CASE("twelve hours of one reading look stuck and are kept") {
  const auto reading = read(hourly("time,temp_c", 2, [](int h) { return number(h < 13 ? 9.0 : wave(h)); }));
  CHECK(says(reading, "13 equal readings of 9.0 C (lines 2 to 14)"));
  CHECK(low(reading, "2024-07-10") == 9.0);
}

TEST_CASE("a day with a long hole is counted but its extremes are not used") {
  const auto reading = read(hourly("time,temp_c,rain_mm", 3,
                                   [](int h) { return h >= 30 && h < 44 ? "" : number(wave(h)) + ",0.1"; }));
  CHECK(reading.days_with_data == 3);
  CHECK(reading.partial_days == 1);
  CHECK(std::isnan(high(reading, "2024-07-11")));
  CHECK(std::isnan(rain(reading, "2024-07-11")));
  CHECK(high(reading, "2024-07-12") == 22.0);
  CHECK(says(reading, "2024-07-11 (not used)"));
}

TEST_CASE("a day of a sub-daily file without readings is missing") {
  const auto reading =
      read(hourly("time,temp_c", 3, [](int h) { return h / 24 == 1 ? "" : number(wave(h)); }));
  CHECK(reading.missing_days == 1);
  CHECK(says(reading, "1 day between the first and the last"));
}

TEST_CASE("steps have names") {
  const auto six = read(hourly(
      "time,temp_c", 3, [](int h) { return number(wave(h)); }, 6));
  CHECK(six.step == "6-hourly");
  CHECK(six.partial_days == 0);
  CHECK(high(six, "2024-07-11") == 22.0);
}

TEST_CASE("extremes of the interval win over the reading at its end") {
  const auto reading = read(hourly("time,temp_c,temp_high_c,temp_low_c", 1, [](int h) {
    return number(wave(h)) + "," + number(wave(h) + 0.7) + "," + number(wave(h) - 0.8);
  }));
  CHECK(low(reading, "2024-07-10") == Approx(9.2));
  CHECK(high(reading, "2024-07-10") == Approx(22.7));
  CHECK(reading.hours[12].air->celsius() == 22.0);
}

TEST_CASE("a counter of the day is recognized by its numbers when its heading does not say so") {
  const auto reading = read(hourly(
      "time,temp_c,rain_mm", 3, [](int h) { return number(wave(h)) + "," + (h % 24 >= 8 ? "4.5" : "0.0"); }));
  CAPTURE(said(reading));
  CHECK(rain(reading, "2024-07-10") == Approx(4.5));
  CHECK(rain(reading, "2024-07-11") == Approx(4.5));
  CHECK(says(reading, "running total of the day"));
}

TEST_CASE("a steady drizzle is no counter") {
  const auto reading = read(hourly("time,temp_c,rain_mm", 2, [](int h) {
    return number(wave(h)) + "," + (h >= 3 && h < 20 ? "0.2" : "0.0");
  }));
  CHECK(rain(reading, "2024-07-10") == Approx(3.4));
}

TEST_CASE("a counter that runs on gives differences, and its reset no negative rain") {
  const auto reading = read(hourly("time,temp_c,rain_year_mm", 3, [](int h) {
    return number(wave(h)) + "," + (h < 30 ? number(600.0 + h / 10) : number((h - 30) / 20));
  }));
  CHECK(rain(reading, "2024-07-10") == Approx(2.0));
  CHECK(rain(reading, "2024-07-11") == Approx(0.0).margin(1e-9));
  CHECK(rain(reading, "2024-07-12") == Approx(2.0));
  CHECK(says(reading, "a reset of the counter"));
}
