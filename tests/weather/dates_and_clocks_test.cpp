// SPDX-License-Identifier: MIT
// Orders of day and month, forms of dates, and clocks.
#include <catch2/catch.hpp>

#include "weather/table/stamp_parsing.hpp"
#include "weather_texts.hpp"

using namespace weather_texts;
using soilclock::weather::DateOrder;
using soilclock::weather::parse_stamp;
using soilclock::weather::parse_time_of_day;

namespace {

std::string days(const std::vector<std::string>& dates) {
  std::string text = "date,tmin_c,tmax_c\n";
  for (const auto& date : dates) text += date + ",5,15\n";
  return text;
}

/// Hours 0 to 23 of a day, 10 C, at stamps made from a prefix.
std::string hours(const std::string& prefix, const std::string& suffix, int from = 0, int to = 23) {
  std::string text;
  for (int hour = from; hour <= to; ++hour)
    text += prefix + (hour < 10 ? "0" : "") + std::to_string(hour) + suffix + "\n";
  return text;
}

}  // namespace

TEST_CASE("a day above twelve settles the order of the whole column, whatever stands before it") {
  CHECK(soilclock::iso(*read(days({"01/02/2024", "25/02/2024"})).first_date) == "2024-02-01");
  CHECK(soilclock::iso(*read(days({"02/01/2024", "02/25/2024"})).first_date) == "2024-02-01");
}

TEST_CASE("without such a day the steps between rows decide, and that is said") {
  const auto reading = read(days({"01/02/2024", "02/02/2024", "03/02/2024", "05/02/2024"}));
  CHECK(soilclock::iso(*reading.last_date) == "2024-02-05");
  CHECK(says(reading, "read day first"));
}

TEST_CASE("an order that nothing settles is asked for, and taken from the options") {
  CHECK(says(read(days({"05/06/2024"})), "order of day and month is not clear"));
  ReadingOptions options;
  options.dates = DateOrder::month_first;
  CHECK(soilclock::iso(*read(days({"05/06/2024"}), options).first_date) == "2024-05-06");
}

TEST_CASE("an order against the dates is refused with the line") {
  ReadingOptions options;
  options.dates = DateOrder::day_first;
  const auto reading = read(days({"02/25/2024"}), options);
  CHECK(says(reading, "t.csv:2:1: this date does not exist"));
}

TEST_CASE("forms of dates give the same day") {
  for (const char* date :
       {"2024-02-29", "2024/02/29", "29.02.2024", "29-feb-2024", "29 Feb 2024", "29/02/2024", "02/29/2024",
        "02/29/24", "20240229", "29-Feb-24", "Feb 29, 2024", "February 29 2024", "45351"}) {
    const auto reading = read("date;tmin_c;tmax_c\n" + std::string{date} + ";5;15\n");
    CAPTURE(date, said(reading));
    REQUIRE(reading.first_date);
    CHECK(soilclock::iso(*reading.first_date) == "2024-02-29");
  }
}

TEST_CASE("texts that are no dates are not taken for one") {
  for (const char* text :
       {"", "Total", "12.5", "1,5", "2024", "2024-05", "99/99", "1.2.3.4.5", "12:30", "2024-05-01x", "25h"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_stamp(text));
  }
}

TEST_CASE("times of day in their usual forms") {
  CHECK(parse_time_of_day("00:00", false) == 0);
  CHECK(parse_time_of_day("24:00", false) == 1440);
  CHECK(parse_time_of_day("12:00 AM", false) == 0);
  CHECK(parse_time_of_day("12:30 p.m.", false) == 750);
  CHECK(parse_time_of_day("1:05 pm", false) == 785);
  CHECK(parse_time_of_day("700", false) == 420);
  CHECK(parse_time_of_day("2400", false) == 1440);
  CHECK(parse_time_of_day("7", true) == 420);
  CHECK_FALSE(parse_time_of_day("25:00", false));
  CHECK_FALSE(parse_time_of_day("13:00 PM", false));
  CHECK_FALSE(parse_time_of_day("1275", false));
  CHECK_FALSE(parse_time_of_day("noon", false));
}

TEST_CASE("a footer is left out with a doubt, a row without date in the middle too") {
  const auto reading =
      read("date,tmin_c,tmax_c\n2024-05-01,5,15\nmowed today,,\n2024-05-02,6,16\nTotal,11,31\n");
  CHECK(reading.days_with_data == 2);
  CHECK(says(reading, "3:0 no date in this row"));
  CHECK(says(reading, "1 line below the data"));
}

TEST_CASE("UTC stamps are cut into days of the site, or said to be UTC days") {
  const std::string text =
      "time,temp_c\n" + hours("2024-06-30T", ":00:00Z,10") + hours("2024-07-01T", ":00:00Z,10");
  const auto utc = read(text);
  CHECK(utc.daily.day_definition == "UTC");
  CHECK(says(utc, "give --time-zone"));
  CHECK(soilclock::iso(*utc.first_date) == "2024-06-30");
  ReadingOptions options;
  options.time_zone = *soilclock::TimeZone::named("America/New_York");
  const auto local = read(text, options);
  CHECK_FALSE(says(local, "UTC"));
  CHECK(soilclock::iso(*local.first_date) == "2024-06-29");
  CHECK(local.hours.front().minute_of_day == 20 * 60);
}

TEST_CASE("offsets in the stamps make the repeated hour two different moments") {
  const std::string text = "time,temp_c,rain_mm\n" + hours("2024-11-03T", ":00:00-04:00,10,0.5", 0, 1) +
                           hours("2024-11-03T", ":00:00-05:00,8,0.5", 1, 23);
  const auto reading = read(text);
  CAPTURE(said(reading));
  CHECK_FALSE(says(reading, "stands"));
  CHECK(reading.hours.size() == 25);
  CHECK(rain(reading, "2024-11-03") == Approx(12.5));
}

TEST_CASE("a repeated hour is accepted where summer time may end and refused elsewhere") {
  const auto doubled = [](const std::string& day) {
    return "time,temp_c\n" + hours(day + " ", ":00,10", 0, 1) + day + " 01:00,9\n" +
           hours(day + " ", ":00,10", 2, 23);
  };
  CHECK(read(doubled("2024-11-03")).outcome == Outcome::warn);
  CHECK(read(doubled("2024-04-07")).outcome == Outcome::warn);
  const auto july = read(doubled("2024-07-07"));
  CHECK(july.outcome == Outcome::error);
  CHECK(says(july, "lines 3 and 4"));
  ReadingOptions options;
  options.time_zone = *soilclock::TimeZone::named("America/New_York");
  CHECK(read(doubled("2024-11-03"), options).outcome == Outcome::warn);
  CHECK(read(doubled("2024-11-17"), options).outcome == Outcome::error);
}

TEST_CASE("equal rows of one moment are dropped with a doubt") {
  const auto reading =
      read("time,temp_c,rain_mm\n" + hours("2024-07-07 ", ":00,10,0.2") + hours("2024-07-07 ", ":00,10,0.2"));
  CHECK(reading.outcome == Outcome::warn);
  CHECK(reading.hours.size() == 24);
  CHECK(rain(reading, "2024-07-07") == Approx(4.8));
}

TEST_CASE("an hour-ending clock gives midnight to the day it closes") {
  const auto reading = read("date,hour_ending,temp_c,rain_mm\n" + [] {
    std::string text;
    for (int hour = 1; hour <= 23; ++hour) text += "2024-05-01," + std::to_string(hour) + ":00,10,0\n";
    return text + "2024-05-02,0:00,5,3.5\n" + "2024-05-02,1:00,11,0\n";
  }());
  CHECK(low(reading, "2024-05-01") == 5.0);
  CHECK(rain(reading, "2024-05-01") == 3.5);
}

TEST_CASE("a clock that fell back is set aside, an old record is not") {
  std::string text = "time,temp_c\n" + hours("2023-07-04 ", ":00,20", 0, 9) +
                     hours("2000-01-01 ", ":00,30", 0, 1) + hours("2023-07-04 ", ":00,20", 12, 23);
  const auto reset = read(text);
  CHECK(soilclock::iso(*reset.first_date) == "2023-07-04");
  CHECK(says(reset, "clock that was reset"));
  std::string record = "date,tmin_c,tmax_c\n";
  for (Day day = soilclock::make_day(2000, 1, 1); day < soilclock::make_day(2006, 1, 1);
       day += soilclock::Days{1}) {
    record += soilclock::iso(day) + ",5,15\n";
  }
  CHECK(soilclock::iso(*read(record).first_date) == "2000-01-01");
}
