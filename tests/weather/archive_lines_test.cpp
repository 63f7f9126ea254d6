// SPDX-License-Identifier: MIT
// Files of fixed lines from the US climate archive and hourly files of the reference network. The lines are
// built here from their public descriptions.
#include <catch2/catch.hpp>
#include <map>

#include "service_texts.hpp"
#include "support/reference_station.hpp"

using namespace weather_texts;

namespace {

struct Entry {
  int value;
  std::string flags = "   ";
};

/// One line of a monthly file: 11 + 4 + 2 + 4 + 31 x (5 + 3) = 269 characters.
std::string month_line(const std::string& element, const std::string& month,
                       const std::map<int, Entry>& days) {
  std::string line = "USC00331783" + month + element;
  for (int day = 1; day <= 31; ++day) {
    const auto found = days.find(day);
    line +=
        found == days.end() ? "-9999   " : fmt::format("{:5d}{}", found->second.value, found->second.flags);
  }
  REQUIRE(line.size() == 269);
  return line + "\n";
}

std::string april() {
  return month_line("TMAX", "202304", {{1, {189, "  7"}}, {2, {244, " I7"}}, {3, {211, "  7"}}}) +
         month_line("TMIN", "202304", {{1, {56, "  7"}}, {2, {100, "  7"}}, {3, {-11, "  7"}}}) +
         month_line("PRCP", "202304", {{1, {0, "T 7"}}, {2, {25, "  7"}}, {3, {0, "P 7"}}});
}

/// One hour of the reference network; fields that are not looked at are missing.
std::string reference_hour(const std::string& date, const std::string& time, double air, double high,
                           double low, double rain, const std::string& humidity = "   55 0",
                           double soil = 12.0) {
  return fmt::format(
      "53878 {} {} {} {}  2.622  -82.56   35.49 {:7.1f} {:7.1f} {:7.1f} {:7.1f} {:7.1f} {} C {} {} -99.000 "
      "-99.000 -99.000 -99.000 -99.000 {:7.1f} -9999.0 -9999.0 -9999.0 -9999.0\n",
      date, time, date, time, air, air, high, low, rain, "0 0 0 0 0 0", "10.0 0 11.0 0 9.0 0", humidity,
      soil);
}

}  // namespace

TEST_CASE("a monthly file is read in tenths, and failed, presumed and trace values are told apart") {
  const auto reading = read(april());
  CAPTURE(said(reading));
  REQUIRE(reading.outcome == Outcome::warn);
  CHECK(high(reading, "2023-04-01") == Approx(18.9));
  CHECK(low(reading, "2023-04-03") == Approx(-1.1));
  CHECK(std::isnan(high(reading, "2023-04-02")));
  CHECK(says(reading, "1 value failed a quality check (flag I)"));
  CHECK(rain(reading, "2023-04-01") == 0.0);
  CHECK(says(reading, "a trace of rain on 2023-04-01"));
  CHECK(rain(reading, "2023-04-02") == Approx(2.5));
  CHECK(std::isnan(rain(reading, "2023-04-03")));
  CHECK(says(reading, "presumed zero on 2023-04-03"));
  CHECK_FALSE(reading.place.has_value());
  CHECK(reading.daily.day_definition == "as printed");
  CHECK(reading.step == "daily");
}

TEST_CASE(
    "blanks lost at the end of a monthly line change nothing, a cut line is left out, a strange one "
    "refused") {
  std::string text = april();
  const auto whole = service_texts::signature(read(text));
  std::string trimmed_lines = text;
  for (auto at = trimmed_lines.find("   \n"); at != std::string::npos; at = trimmed_lines.find("   \n"))
    trimmed_lines.erase(at, 3);
  CHECK(service_texts::signature(read(trimmed_lines)) == whole);
  const auto cut = read(text.substr(0, text.size() - 100));
  CHECK(cut.outcome == Outcome::warn);
  CHECK(says(cut, "cut off"));
  CHECK(cut.daily.rain.empty());
  text.insert(text.find("TMIN"), "x");
  CHECK(says(read(text), "does not have the shape of the lines before it"));
}

TEST_CASE("rain of several days in a monthly file is no day's rain") {
  const auto reading =
      read(month_line("TMAX", "202304", {{1, {189}}, {4, {200}}}) +
           month_line("TMIN", "202304", {{1, {56}}, {4, {70}}}) +
           month_line("PRCP", "202304", {{1, {10}}, {5, {0}}}) + month_line("MDPR", "202304", {{4, {330}}}) +
           month_line("DAPR", "202304", {{4, {3}}}));
  CAPTURE(said(reading));
  CHECK(says(reading, "33.0 mm fell over the 3 days 2023-04-02 to 2023-04-04"));
  CHECK(rain(reading, "2023-04-01") == Approx(1.0));
  for (const char* day : {"2023-04-02", "2023-04-03", "2023-04-04"}) CHECK(std::isnan(rain(reading, day)));
  CHECK(rain(reading, "2023-04-05") == 0.0);
}

TEST_CASE("soil extremes give a mean at the depth of their digit, flagged ones give none, sod comes first") {
  const auto reading =
      read(month_line("TMAX", "202304", {{1, {189}}, {2, {190}}}) +
           month_line("TMIN", "202304", {{1, {56}}, {2, {60}}}) + month_line("SN32", "202304", {{1, {50}}}) +
           month_line("SX32", "202304", {{1, {90}}}) +
           month_line("SN52", "202304", {{1, {100}}, {2, {110, " G "}}}) +
           month_line("SX52", "202304", {{1, {140}}, {2, {150}}}));
  CAPTURE(said(reading));
  CHECK(soil(reading, 10.0, "2023-04-01") == Approx(12.0));
  CHECK(std::isnan(soil(reading, 10.0, "2023-04-02")));
  CHECK(says(reading, "SN52 and SX52"));
}

TEST_CASE("a day a month does not have cannot hold a value") {
  CHECK(
      says(read(month_line("TMAX", "202302", {{1, {10}}, {30, {189}}})), "day 30 does not exist in 2023-02"));
}

TEST_CASE("lines of single values are read with or without heading, for one of several stations") {
  const std::string lines =
      "USC00371874,20210901,TMAX,250,,,7,0700\n"
      "USC00371874,20210901,TMIN,150,,,7,0700\n"
      "USC00371874,20210902,PRCP,1016,,,7,0700\n"
      "USC00371874,20210902,TMAX,211,,X,7,0700\n"
      "USW00014821,20210901,TMAX,300,,,W,\n"
      "USW00014821,20210901,TMIN,200,,,W,\n";
  const auto reading = read(lines);
  CAPTURE(said(reading));
  CHECK(high(reading, "2021-09-01") == Approx(25.0));
  CHECK(rain(reading, "2021-09-02") == Approx(101.6));
  CHECK(std::isnan(high(reading, "2021-09-02")));
  CHECK(says(reading, "the file holds 2 stations; 'USC00371874' is read, not USW00014821"));
  CHECK(says(reading, "read in the morning (about 07:00)"));
  ReadingOptions other;
  other.station = "USW00014821";
  CHECK(high(read(lines, other), "2021-09-01") == Approx(30.0));
  other.station = "USW00000000";
  CHECK(says(read(lines, other), "this station is not in the file"));
  const auto headed = read("ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n" + lines);
  CHECK(high(headed, "2021-09-01") == Approx(25.0));
  ReadingOptions shifted;
  shifted.shift_morning_observations = true;
  const auto moved = read(lines, shifted);
  CHECK(high(moved, "2021-08-31") == Approx(25.0));
  CHECK(rain(moved, "2021-09-01") == Approx(101.6));
  CHECK(low(moved, "2021-09-01") == Approx(15.0));
}

TEST_CASE("one value that stands twice with different amounts is refused with its line") {
  CHECK(says(read("USC00371874,20210901,TMAX,250,,,7,\nUSC00371874,20210901,TMAX,251,,,7,\n"),
             "t.csv:2: TMAX of 2021-09-01 stands twice with different values"));
}

TEST_CASE("hours of the reference network close at their stamps, and 0000 closes the day before") {
  std::string text;
  for (int hour = 1; hour <= 24; ++hour) {
    const bool last = hour == 24;
    text += reference_hour(last ? "20200502" : "20200501", last ? "0000" : fmt::format("{:02}00", hour), 10.0,
                           last ? 25.5 : 12.0, hour == 5 ? 3.5 : 8.0, 0.5, hour == 7 ? "   55 3" : "   60 0",
                           hour <= 12 ? 11.0 : 13.0);
  }
  text += reference_hour("20200502", "0100", 1.0, 1.0, 1.0, 9.0);
  const auto reading = read(text);
  CAPTURE(said(reading));
  REQUIRE(reading.outcome == Outcome::warn);
  CHECK(reading.step == "hourly");
  CHECK(reading.daily.day_definition == "local standard time");
  CHECK(high(reading, "2020-05-01") == 25.5);
  CHECK(low(reading, "2020-05-01") == 3.5);
  CHECK(rain(reading, "2020-05-01") == Approx(12.0));
  CHECK(soil(reading, 5.0, "2020-05-01") == Approx(12.0));
  CHECK(std::isnan(high(reading, "2020-05-02")));
  CHECK(reading.daily.soil.size() == 1);
  CHECK(reading.hours[23].minute_of_day == 1440);
  CHECK(soilclock::iso(reading.hours[23].day) == "2020-05-01");
  CHECK(reading.hours[0].air->celsius() == 10.0);
  CHECK_FALSE(reading.hours[6].humidity_percent.has_value());
  CHECK(says(reading, "1 humidity value is flagged as erroneous"));
  CHECK(reading.place->longitude_deg == -82.56);
  CHECK(reading.daily.air_max.quality(*reading.first_date) == soilclock::Quality::measured);
}

TEST_CASE("missing codes of an hourly file are missing, five hours are bridged and six hide the day") {
  const auto day = [](int first_missing, int count) {
    std::string text;
    for (int hour = 1; hour <= 23; ++hour) {
      const bool missing = hour >= first_missing && hour < first_missing + count;
      const double t = missing ? -9999.0 : 10.0;
      text += reference_hour("20200501", fmt::format("{:02}00", hour), t, t, t, missing ? -9999.0 : 0.0);
    }
    return read(text + reference_hour("20200502", "0000", 10.0, 10.0, 10.0, 0.0));
  };
  CHECK(low(day(8, 5), "2020-05-01") == 10.0);
  CHECK(std::isnan(low(day(8, 6), "2020-05-01")));
  CHECK(std::isnan(rain(day(8, 1), "2020-05-01")));
  CHECK(rain(day(8, 0), "2020-05-01") == 0.0);
}

TEST_CASE("an hourly file that goes back in time or changes its shape is refused with its line") {
  const std::string hour = reference_hour("20200501", "0100", 10, 10, 10, 0);
  CHECK(says(read(hour + hour), "t.csv:2: this hour does not follow the one before it"));
  CHECK(says(read(hour + "53878 20200501 0200\n" + hour), "t.csv:2: this line does not have the shape"));
  CHECK(says(read(hour + hour.substr(0, 60)), "the last line is cut off"));
}

TEST_CASE("hours laid out from a measured year give the measured days back") {
  const auto station = soilclock::tests::reference_station("NC_Durham_11_W");
  std::string text;
  for (auto day = station.air_max.first(); day <= station.air_max.last(); day += soilclock::Days{1}) {
    const auto digits = [](soilclock::Day d) {
      const auto date = soilclock::civil(d);
      return fmt::format("{:04}{:02}{:02}", date.year, date.month, date.day);
    };
    const auto t = [](const std::optional<soilclock::Temperature>& value) {
      return value ? value->celsius() : -9999.0;
    };
    const double low = t(station.air_min.at(day));
    const double high = t(station.air_max.at(day));
    const auto rain = station.rain.at(day);
    for (int hour = 1; hour <= 24; ++hour) {
      const bool last = hour == 24;
      // The lowest in the first hour of the day and the highest in its last, where a wrong clock would move
      // them.
      const double of_hour = hour == 1 ? low : high;
      text += reference_hour(digits(last ? day + soilclock::Days{1} : day), fmt::format("{:02}00", hour % 24),
                             of_hour, of_hour, of_hour,
                             !rain  ? -9999.0
                             : last ? rain->mm()
                                    : 0.0);
    }
  }
  const auto reading = read(text);
  REQUIRE(reading.outcome != Outcome::error);
  int compared = 0;
  for (auto day = station.air_max.first(); day <= station.air_max.last(); day += soilclock::Days{1}) {
    CHECK(reading.daily.air_max.at(day) == station.air_max.at(day));
    CHECK(reading.daily.air_min.at(day) == station.air_min.at(day));
    CHECK(reading.daily.rain.at(day).has_value() == station.rain.at(day).has_value());
    ++compared;
  }
  CHECK(compared == 366);
}
