// SPDX-License-Identifier: MIT
// Values that cannot be what they are said to be: labels that lie, orders of dates, reversed extremes, flat
// and impossible hours; and shapes of files that are not one row a day.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <vector>

#include "weather/services/service_answer.hpp"
#include "weather_texts.hpp"

using namespace weather_texts;
using soilclock::Days;
using soilclock::make_day;

namespace {

/// A made year: mean and size of the seasons, how much days differ, range of a day.
struct Climate {
  double mean;
  double season;
  double spread;
  double range;
  double latitude;
};

const std::vector<Climate> climates{{11.0, 14.0, 4.5, 11.0, 41.0},  // inland north
                                    {16.0, 10.0, 4.0, 12.0, 35.5},  // inland south
                                    {10.0, 5.5, 2.8, 7.5, 53.0},    // coast
                                    {7.0, 17.0, 5.0, 11.5, 46.0}};  // cold inland

struct Made {
  Day day;
  double low;
  double high;
};

std::vector<Made> made(const Climate& climate, Day first, int count, unsigned seed) {
  std::vector<Made> days;
  days.reserve(static_cast<std::size_t>(count));
  double anomaly = 0.0;
  const auto uniform = [&] {
    seed = seed * 1664525u + 1013904223u;
    return static_cast<double>(seed >> 8) / 16777216.0;
  };
  for (int i = 0; i < count; ++i) {
    const double shock = (uniform() + uniform() + uniform() + uniform() - 2.0) * std::sqrt(3.0);
    anomaly = 0.6 * anomaly + 0.8 * shock;
    const Day day = first + Days{i};
    const double season = -climate.season * std::cos((soilclock::day_of_year(day) - 20) * 0.017202);
    const double middle = climate.mean + season + climate.spread * anomaly;
    const double half = climate.range * (0.6 + 0.8 * uniform()) / 2.0;
    days.push_back({day, middle - half, middle + half});
  }
  return days;
}

std::string table(const std::vector<Made>& days, const std::string& unit, bool fahrenheit) {
  std::string text = fmt::format("Date,Tmin{0},Tmax{0}\n", unit);
  const auto number = [&](double celsius) { return fahrenheit ? celsius * 1.8 + 32.0 : celsius; };
  for (const Made& one : days)
    text += fmt::format("{},{:.1f},{:.1f}\n", soilclock::iso(one.day), number(one.low), number(one.high));
  return text;
}

bool loud(const ParsedFile& reading) {
  return reading.outcome == Outcome::error || says(reading, "about as well") ||
         says(reading, "both in the units");
}

std::string hourly(int days, const std::string& heading, const std::string& (*cells)(int)) {
  std::string text = heading + "\n";
  for (int hour = 0; hour < days * 24; ++hour)
    text += fmt::format("2024-06-{:02} {:02}:00,{}\n", 1 + hour / 24, hour % 24, cells(hour));
  return text;
}

std::string answer_of(const std::vector<Made>& days, const std::string& unit, bool fahrenheit,
                      double latitude) {
  std::string times;
  std::string lows;
  std::string highs;
  const auto number = [&](double celsius) { return fahrenheit ? celsius * 1.8 + 32.0 : celsius; };
  for (const Made& one : days) {
    const char* comma = times.empty() ? "" : ",";
    times += fmt::format("{}\"{}\"", comma, soilclock::iso(one.day));
    lows += fmt::format("{}{:.1f}", comma, number(one.low));
    highs += fmt::format("{}{:.1f}", comma, number(one.high));
  }
  return fmt::format(
      R"({{"latitude":{},"longitude":-83.0,"utc_offset_seconds":-18000,"timezone":"America/New_York",)"
      R"("daily_units":{{"time":"iso8601","temperature_2m_max":"{}","temperature_2m_min":"{}"}},)"
      R"("daily":{{"time":[{}],"temperature_2m_max":[{}],"temperature_2m_min":[{}]}}}})",
      latitude, unit, unit, times, highs, lows);
}

}  // namespace

TEST_CASE("a heading over numbers of the other scale is never read in silence, in any season") {
  int quiet_and_right = 0;
  for (unsigned seed = 1; seed <= 40; ++seed) {
    for (const Climate& climate : climates) {
      const auto days = made(climate, make_day(2023, 1 + seed % 12, 1), 45, seed * 7919u);
      CAPTURE(seed, climate.mean);
      const auto celsius_over_fahrenheit = read(table(days, " (C)", true));
      const auto fahrenheit_over_celsius = read(table(days, " (F)", false));
      CHECK(loud(celsius_over_fahrenheit));
      CHECK(loud(fahrenheit_over_celsius));
      const auto right = read(table(days, " (C)", false));
      const auto right_us = read(table(days, " (F)", true));
      REQUIRE(right.outcome != Outcome::error);
      REQUIRE(right_us.outcome != Outcome::error);
      quiet_and_right += (loud(right) ? 0 : 1) + (loud(right_us) ? 0 : 1);
      // Without a unit the numbers are read rightly or asked about.
      for (const bool us : {false, true}) {
        const auto bare = read(table(days, "", us));
        if (bare.outcome == Outcome::error) continue;
        CHECK(low(bare, soilclock::iso(days[3].day)) == Approx(days[3].low).margin(0.06));
      }
    }
  }
  CHECK(quiet_and_right >= 310);  // of 320
}

TEST_CASE("where the site is known its climate decides") {
  for (unsigned seed = 1; seed <= 30; ++seed) {
    for (const Climate& climate : climates) {
      const auto days = made(climate, make_day(2023, 1 + seed % 12, 1), 30, seed * 104729u);
      ReadingOptions options;
      options.place = soilclock::Place{climate.latitude, -83.0, {}};
      CAPTURE(seed, climate.mean);
      CHECK(loud(read(table(days, " (C)", true), options)));
      CHECK(loud(read(table(days, " (F)", false), options)));
      CHECK(read(table(days, " (C)", false), options).outcome != Outcome::error);
    }
  }
  // A summer south of the equator is no winter in Fahrenheit.
  const auto summer = made({24.0, 4.0, 3.0, 14.0, -30.0}, make_day(2023, 7, 1), 30, 5);
  std::string text = "Date,Tmin (C),Tmax (C)\n";
  for (std::size_t i = 0; i < summer.size(); ++i)
    text += fmt::format("2023-01-{:02},{:.1f},{:.1f}\n", i + 1, summer[i].low, summer[i].high);
  ReadingOptions south;
  south.place = soilclock::Place{-30.0, 140.0, {}};
  CHECK(read(text, south).outcome == Outcome::ok);
}

TEST_CASE("a service's answer in the other scale is refused") {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const auto days = made(climates[1], make_day(2023, seed, 1), 30, seed * 15485863u);
    CAPTURE(seed);
    CHECK(loud(read(answer_of(days,
                              "\xC2\xB0"
                              "C",
                              true, 35.5))));
    CHECK(loud(read(answer_of(days,
                              "\xC2\xB0"
                              "F",
                              false, 35.5))));
    CHECK_FALSE(loud(read(answer_of(days,
                                    "\xC2\xB0"
                                    "C",
                                    false, 35.5))));
  }
}

TEST_CASE("a maximum above the hottest day on record is refused, a spike is missing") {
  const std::string start = "date,tmin_c,tmax_c\n";
  CHECK(says(read(start + "2024-07-01,30,52\n2024-07-02,31,56\n2024-07-03,32,58\n2024-07-04,30,54\n"),
             "hottest day on record"));
  const auto spike = read(start + "2024-07-01,10,22\n2024-07-02,11,58\n2024-07-03,12,23\n");
  CHECK(std::isnan(high(spike, "2024-07-02")));
  CHECK(says(spike, "not weather"));
}

TEST_CASE("minimum and maximum in different scales are refused") {
  std::string text = "Date,Tmin (C),Tmax (C)\n";
  for (const Made& one : made(climates[0], make_day(2023, 1, 1), 30, 3))
    text += fmt::format("{},{:.1f},{:.1f}\n", soilclock::iso(one.day), one.low, one.high * 1.8 + 32.0);
  CHECK(says(read(text), "not both in the units"));
}

TEST_CASE("soil in the other scale is refused by its season") {
  for (const char* label : {"C", "F"}) {
    std::string text = fmt::format("Date,Soil temp 5 cm ({})\n", label);
    for (int day = 1; day <= 28; ++day)
      text += fmt::format("2024-01-{:02},{}\n", day, *label == 'C' ? 38 + day % 5 : 3 + day % 4);
    CAPTURE(text, said(read(text)));
    CHECK(says(read(text), "suspected"));
  }
}

TEST_CASE("the order of two-digit years follows the steps of the days") {
  for (const char* form : {"{0:02}-{1:02}-{2:02}", "{0:02}/{1:02}/{2:02}", "{2:02}/{1:02}/{0:02}",
                           "{1:02}/{2:02}/{0:02}", "{2:02}.{1:02}.{0:02}", "{0:02}.{1:02}.{2:02}"}) {
    for (const int count : {3, 12, 30, 400}) {
      std::string text = "Date,Tmin (C),Tmax (C)\n";
      const Day first = make_day(2013, 10, 1);
      for (int i = 0; i < count; ++i) {
        const auto date = soilclock::civil(first + Days{i});
        text += fmt::format(fmt::runtime(form), date.year % 100, date.month, date.day) +
                fmt::format(",{},{}\n", 4 + i % 5, 15 + i % 7);
      }
      const auto reading = read(text);
      CAPTURE(form, count, said(reading));
      if (reading.outcome == Outcome::error) {
        CHECK(count == 3);
        continue;
      }
      CHECK(reading.first_date == first);
      CHECK(reading.last_date == first + Days{count - 1});
    }
  }
  CHECK(high(read("Date,Tmin (C),Tmax (C)\n23-Oct-13,5,15\n24-Oct-13,6,16\n"), "2013-10-24") == 16.0);
  CHECK(says(read("Date,Tmin (C),Tmax (C)\n01/02/03,5,15\n"), "not clear"));
}

TEST_CASE("a minimum above its maximum on every row is a question about the columns") {
  std::string text = "Date,Tmin (C),Tmax (C)\n";
  for (int day = 1; day <= 20; ++day) text += fmt::format("2024-06-{:02},{},{}\n", day, 24 + day % 3, 12);
  CHECK(says(read(text), "are the two columns exchanged"));
  ReadingOptions swap;
  swap.swap_reversed_extremes = true;
  CHECK(high(read(text, swap), "2024-06-03") == 24.0);
  const auto hours = hourly(3, "Time,Tmin (C),Tmax (C)", [](int hour) -> const std::string& {
    static std::string cells;
    cells = fmt::format("{},{}", 15 + hour % 7, 14 + hour % 7);
    return cells;
  });
  CHECK(says(read(hours), "are the two columns exchanged"));
  const auto once = hourly(3, "Time,Tmin (C),Tmax (C)", [](int hour) -> const std::string& {
    static std::string cells;
    cells = fmt::format("{},{}", 14 + hour % 7 + (hour == 30 ? 20 : 0), 15 + hour % 7);
    return cells;
  });
  CHECK(says(read(once), "minimum of this reading is above its maximum"));
}

TEST_CASE("after a shift no day keeps a minimum above the maximum of the next row") {
  ReadingOptions options;
  options.shift_morning_observations = true;
  const auto reading =
      read("date,obs_time,tmin_c,tmax_c\n2024-03-01,0700,18,24\n2024-03-02,0700,2,9\n2024-03-03,0700,1,10\n",
           options);
  CAPTURE(said(reading));
  CHECK(std::isnan(low(reading, "2024-03-01")));
  CHECK(std::isnan(high(reading, "2024-03-01")));
  CHECK(says(reading, "2024-03-01"));
  CHECK(high(reading, "2024-03-02") == 10.0);
}

TEST_CASE("an hour of more rain than any on record is missing, and its day has no total") {
  const auto reading = read(hourly(3, "Time,Temp (C),Rain (mm)", [](int hour) -> const std::string& {
    static std::string cells;
    cells = fmt::format("{},{}", 12 + hour % 9, hour == 30 ? 480 : hour % 2);
    return cells;
  }));
  CAPTURE(said(reading));
  CHECK(says(reading, "480"));
  CHECK(std::isnan(rain(reading, "2024-06-02")));
  CHECK(rain(reading, "2024-06-01") == 12.0);
}

TEST_CASE("amounts of another length of time than the rows are left out aloud") {
  for (const char* heading : {"Rain 24h (mm)", "Rain last hour (mm)", "Rain 6 h (mm)"}) {
    const std::string text =
        hourly(3, std::string{"Time,Temp (C),"} + heading, [](int hour) -> const std::string& {
          static std::string cells;
          cells = fmt::format("{},{}", 12 + hour % 9, 3 + hour % 5);
          return cells;
        });
    CAPTURE(heading, said(read(text)));
    CHECK(read(text).outcome == Outcome::warn);
    CHECK(read(text).daily.rain.empty());
  }
  CHECK(rain(read("Date,Tmin (C),Tmax (C),Rain 24h (mm)\n2024-06-01,12,25,4\n2024-06-02,12,26,0\n"),
             "2024-06-01") == 4.0);
}

TEST_CASE("hours of a service that stand still for days are missing") {
  std::string times;
  std::string values;
  for (int hour = 0; hour < 24 * 20; ++hour) {
    times += fmt::format("{}\"2024-04-{:02}T{:02}:00\"", hour == 0 ? "" : ",", 1 + hour / 24, hour % 24);
    values += fmt::format("{}{}", hour == 0 ? "" : ",", hour < 24 * 10 ? 0.0 : 9.0 + hour % 24 * 0.4);
  }
  const auto reading = read(fmt::format(
      R"({{"latitude":35.5,"longitude":-83.0,"utc_offset_seconds":0,"timezone":"GMT","hourly_units":{{"time":"iso8601","temperature_2m":"{}C"}},)"
      R"("hourly":{{"time":[{}],"temperature_2m":[{}]}}}})",
      "\xC2\xB0", times, values));
  CAPTURE(said(reading));
  CHECK(says(reading, "no weather stands still"));
  CHECK(std::isnan(low(reading, "2024-04-05")));
  CHECK(low(reading, "2024-04-15") > 8.0);
}

TEST_CASE("one value a row is read like a table of columns") {
  std::string text = "Station,Date,Element,Value,Unit\n";
  for (int day = 1; day <= 20; ++day) {
    text += fmt::format(
        "A,2024-06-{0:02},TMAX,{1},C\nA,2024-06-{0:02},TMIN,{2},C\nA,2024-06-{0:02},PRCP,{3},mm\n", day,
        24 + day % 4, 12 + day % 3, day % 5);
  }
  const auto reading = read(text);
  CAPTURE(said(reading));
  REQUIRE(reading.outcome == Outcome::warn);
  CHECK(high(reading, "2024-06-03") == 27.0);
  CHECK(low(reading, "2024-06-04") == 13.0);
  CHECK(rain(reading, "2024-06-04") == 4.0);
  CHECK(says(read(text + "A,2024-06-03,TMAX,11,C\n"), "lines 8 and 62 with different values"));
  CHECK(says(read("date;parameter;wert\n2024-06-01;Temp max (furlong);25\n2024-06-01;Temp min (C);12\n"
                  "2024-06-02;Temp max (furlong);26\n2024-06-02;Temp min (C);13\n"),
             "furlong"));
}

TEST_CASE("zero bytes of a power cut take the lines they stand on, and no others") {
  std::string text = "Date,Tmin (C),Tmax (C)\n2024-06-01,12,25\n2024-06-02,13,26\n2024-06-03,1";
  const auto cut = read(text + std::string(400, '\0'));
  CAPTURE(said(cut));
  CHECK(cut.outcome == Outcome::warn);
  CHECK(soilclock::iso(*cut.last_date) == "2024-06-02");
  CHECK(says(cut, "4:0 1 line holds zero bytes"));
  const auto middle = read(text + "2,25\n" + std::string(50, '\0') + "\n2024-06-04,14,27\n");
  CHECK(high(middle, "2024-06-04") == 27.0);
  CHECK(says(read(std::string(100, '\0') + "\x01\x02"), "binary"));
}

TEST_CASE("a workbook is refused with the way to a CSV file") {
  for (const std::string& start : {std::string{"PK\x03\x04"}, std::string{"\xD0\xCF\x11\xE0"}}) {
    const auto reading = read(start + std::string(200, '\0') + "\xFF\xFE\x80");
    CHECK(reading.outcome == Outcome::error);
    CHECK(says(reading, "spreadsheet workbook"));
    CHECK(says(reading, "CSV as the type"));
  }
}
