// SPDX-License-Identifier: MIT
// Units from heading, numbers or user; missing values; daily rules.
#include <catch2/catch.hpp>

#include <cmath>

#include "weather_texts.hpp"

using namespace weather_texts;

namespace {

std::string days(const std::string& heading, const std::vector<std::string>& rows, int month = 6) {
  std::string text = heading + "\n";
  int day = 0;
  for (const auto& row : rows) {
    ++day;
    text += "2024-" + std::string(month < 10 ? "0" : "") + std::to_string(month) + (day < 10 ? "-0" : "-") +
            std::to_string(day) + "," + row + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("a number is compared with missing codes before it is converted") {
  const auto reading = read(days("date,tmax_f,tmin_f,rain_in", {"70,50,0", "-9999,-99.9,-999", "72,52,M"}));
  CAPTURE(said(reading));
  CHECK(std::isnan(high(reading, "2024-06-02")));
  CHECK(std::isnan(low(reading, "2024-06-02")));
  CHECK(std::isnan(rain(reading, "2024-06-02")));
  CHECK(std::isnan(rain(reading, "2024-06-03")));
  CHECK(reading.missing_days == 1);
}

TEST_CASE("a blank is missing, never zero, and a trace is zero, never missing") {
  const auto reading = read(days("date,tmax_c,tmin_c,rain_mm", {"20,10,", "21,11,T"}));
  CHECK(std::isnan(rain(reading, "2024-06-01")));
  CHECK(rain(reading, "2024-06-02") == 0.0);
  CHECK(says(reading, "trace"));
}

TEST_CASE("a cell that is no number is named with line and column") {
  const auto reading = read(days("date,tmax_c,tmin_c", {"20,10", "2l,11", "22,12"}));
  CHECK(says(reading, "3:2 '2l' is not a number"));
  CHECK(reading.partial_days == 1);
}

TEST_CASE("typographic minus signs and no-break blanks are understood") {
  const auto reading = read(
      "date;tmax_c;tmin_c\n2024-01-01;3.5\xC2\xA0;\xE2\x88\x92"
      "6.5\n");
  CHECK(low(reading, "2024-01-01") == -6.5);
  CHECK(high(reading, "2024-01-01") == 3.5);
}

TEST_CASE("without a unit the numbers decide, once for all columns and with a doubt") {
  const auto fahrenheit = read(days("date,high,low,rain", {"75,55,0.2", "78,56,0", "80,58,0"}));
  CHECK(high(fahrenheit, "2024-06-01") == Approx(23.89).margin(0.006));
  CHECK(rain(fahrenheit, "2024-06-01") == Approx(5.08));
  CHECK(says(fahrenheit, "read as F"));
  const auto celsius = read(days("date,high,low,rain", {"25,15,5.2", "28,16,0"}));
  CHECK(high(celsius, "2024-06-01") == 25.0);
  CHECK(rain(celsius, "2024-06-01") == 5.2);
  const auto tenths = read(days("date,TMAX,TMIN,PRCP", {"256,156,52", "283,161,0"}));
  CHECK(high(tenths, "2024-06-01") == Approx(25.6));
  CHECK(rain(tenths, "2024-06-01") == Approx(5.2));
  CHECK(says(tenths, "tenths of a degree are suspected"));
  const auto hot_tenths = read(days("date,TMAX,TMIN", {"306,221", "331,231"}));
  CHECK(high(hot_tenths, "2024-06-01") == Approx(30.6));
  const auto kelvin = read(days("date,high,low", {"298.15,285.15", "301.5,288.2"}));
  CHECK(high(kelvin, "2024-06-01") == Approx(25.0));
}

TEST_CASE("units behind the numbers count like those of a heading and must not contradict it") {
  const auto reading = read(days("date,high,low,rain", {"75\xC2\xB0"
                                                        "F,55 F,0.2 in",
                                                        "78 \xC2\xB0"
                                                        "F,--,0 in"}));
  CAPTURE(said(reading));
  CHECK(high(reading, "2024-06-01") == Approx(23.89).margin(0.006));
  CHECK(rain(reading, "2024-06-01") == Approx(5.08));
  CHECK_FALSE(says(reading, "no unit"));
  CHECK(says(read(days("date,tmax_c,tmin_c", {"75 F,55 F"})), "C as in the heading"));
  CHECK(says(read(days("date,tmax,tmin", {"75 F,55 F", "24 C,13 C"})), "two units"));
}

TEST_CASE("one temperature a day is not enough, and is said") {
  const auto reading = read(days("date,temp_c", {"15", "16", "17"}));
  CHECK(reading.outcome == Outcome::error);
  CHECK(says(reading, "minimum and maximum are needed"));
}

TEST_CASE("a slip in a year does not stretch the record") {
  const auto reading = read("date,tmin_c,tmax_c\n2024-06-01,1,11\n2042-06-02,2,12\n2024-06-03,1,11\n");
  CHECK(soilclock::iso(*reading.last_date) == "2024-06-03");
  CHECK(says(reading, "3:0 2042-06-02 lies more than a year away"));
}

TEST_CASE("a heading behind a comment mark is a heading") {
  const auto reading = read("# date,tmin_c,tmax_c\n2024-06-01,1,11\n");
  CHECK(reading.outcome == Outcome::ok);
  CHECK(high(reading, "2024-06-01") == 11.0);
}

TEST_CASE("numbers that fit two units are asked about, and the option answers") {
  const std::string text = days("date,high,low", {"38,25", "39,24", "37,23"}, 1);
  CHECK(says(read(text), "fit both Celsius and Fahrenheit"));
  CHECK(high(read(text, with_units("F")), "2024-01-01") == Approx(3.33).margin(0.006));
  CHECK(high(read(text, with_units("C")), "2024-01-01") == 38.0);
}

TEST_CASE("a heading against its numbers is refused, and the option decides") {
  const std::string celsius_as_fahrenheit =
      days("date,tmax_f,tmin_f", {"24,13", "25,12", "24,12", "28,17", "26,13", "25,14"});
  CHECK(says(read(celsius_as_fahrenheit), "Celsius is suspected"));
  CHECK(high(read(celsius_as_fahrenheit, with_units("C")), "2024-06-01") == 24.0);
  CHECK(says(read(celsius_as_fahrenheit, with_units("C")),
             "the heading 'tmax_f' says F; read as C, as you said"));
  CHECK_FALSE(says(read(celsius_as_fahrenheit, with_units("F")), "as you said"));
  const std::string fahrenheit_as_celsius = days("date,tmax_c,tmin_c", {"74,53", "75,52", "84,52", "88,57"});
  CHECK(says(read(fahrenheit_as_celsius), "Fahrenheit is suspected"));
  CHECK(says(read(days("date,tmax_c,tmin_c", {"256,156", "283,161", "275,150"})), "tenths"));
  CHECK(says(read(days("date,tmax_k,tmin_k", {"24,13", "25,12"})), "the heading says kelvin"));
  CHECK(says(read(days("date,tmax_f,tmin_f,rain_in", {"75,55,7.8", "78,56,0", "80,58,12.5", "80,58,0"})),
             "millimeters are suspected"));
}

TEST_CASE("a hot desert in Celsius and a cold winter in Fahrenheit are no contradiction") {
  CHECK(read(days("date,tmax_c,tmin_c", {"53.9,37.2", "52,36", "51,35"}, 7)).outcome == Outcome::ok);
  CHECK(read(days("date,tmax_f,tmin_f", {"12,-5", "20,1", "25,10", "30,12", "18,2"}, 1)).outcome ==
        Outcome::ok);
}

TEST_CASE("an unknown unit option is a problem of the request") {
  const auto reading = read(days("date,high,low", {"38,25"}), with_units("R"));
  REQUIRE(reading.refusal);
  CHECK(reading.refusal->family == soilclock::Family::request);
}

TEST_CASE("a minimum above its maximum is missing, or exchanged when asked") {
  const std::string text = days("date,tmin_c,tmax_c", {"10,20", "22,12", "11,21"});
  const auto strict = read(text);
  CHECK(strict.missing_days == 1);
  CHECK(says(strict, "3:0 2024-06-02: the minimum (22.0 C) is above the maximum (12.0 C)"));
  ReadingOptions options;
  options.swap_reversed_extremes = true;
  const auto swapped = read(text, options);
  CHECK(low(swapped, "2024-06-02") == 12.0);
  CHECK(swapped.outcome == Outcome::warn);
}

TEST_CASE("impossible values are taken away with their line") {
  const auto reading =
      read(days("date,tmin_c,tmax_c,rain_mm", {"10,20,0", "11,61,0", "10,20,501", "10,20,-5", "9,19,0"}));
  CHECK(std::isnan(high(reading, "2024-06-02")));
  CHECK(std::isnan(rain(reading, "2024-06-03")));
  CHECK(std::isnan(rain(reading, "2024-06-04")));
  CHECK(says(reading, "3:0 a maximum of 61.0 C"));
}

TEST_CASE("a day far away from both neighbors is doubted, a change of weather is not") {
  CHECK(says(read(days("date,tmin_c,tmax_c", {"1,20", "1,50", "1,20"})), "both neighboring days"));
  CHECK(read(days("date,tmin_c,tmax_c", {"1,30", "-20,2", "-22,1"}, 3)).outcome == Outcome::ok);
}

TEST_CASE("equal days in a row look stuck") {
  CHECK(says(read(days("date,tmin_c,tmax_c", {"1,20", "9,19", "9,19", "9,19", "9,19", "9,19", "2,20"})),
             "may be stuck"));
}

TEST_CASE("equal repeats of a day are kept once, different ones are refused") {
  CHECK(says(read("date,tmin_c,tmax_c\n2024-06-01,1,11\n2024-06-01,1,11\n"),
             "lines 2 and 3 with equal values"));
  const auto conflict = read("date,tmin_c,tmax_c\n2024-06-01,1,11\n2024-06-02,1,11\n2024-06-01,2,11\n");
  CHECK(conflict.outcome == Outcome::error);
  CHECK(says(conflict, "2024-06-01 stands on lines 2 and 4 with different values"));
}

TEST_CASE("a morning observer is flagged, and moved by a day when asked") {
  const std::string text =
      days("date,obs_time,tmax_c,tmin_c,rain_mm", {"0700,20,10,1", "0700,22,11,2", "0700,24,12,3"});
  CHECK(says(read(text), "read in the morning"));
  CHECK(high(read(text), "2024-06-02") == 22.0);
  ReadingOptions options;
  options.shift_morning_observations = true;
  const auto moved = read(text, options);
  CHECK(high(moved, "2024-06-01") == 22.0);
  CHECK(rain(moved, "2024-06-02") == 3.0);
  CHECK(low(moved, "2024-06-02") == 11.0);
  const auto evening =
      read(days("date,obs_time,tmax_c,tmin_c,rain_mm", {"1800,20,10,1", "1800,22,11,2"}), options);
  CHECK(says(evening, "not those of a morning; nothing is moved"));
  CHECK(high(evening, "2024-06-02") == 22.0);
  const auto unsaid = read(days("date,tmax_c,tmin_c,rain_mm", {"20,10,1", "22,11,2"}), options);
  CHECK(says(unsaid, "moved to the day before as asked"));
  CHECK(high(unsaid, "2024-06-01") == 22.0);
}

TEST_CASE("values with a failed quality flag are missing") {
  const auto reading = read(
      "\"DATE\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\",\"TMIN_ATTRIBUTES\"\n"
      "\"2023-04-10\",\"  18.9\",\",,7\",\"  5.6\",\",,7\"\n\"2023-04-11\",\"  27.2\",\",I,7\",\"  "
      "8.3\",\",,7\"\n");
  CHECK(high(reading, "2023-04-10") == 18.9);
  CHECK(std::isnan(high(reading, "2023-04-11")));
  CHECK(low(reading, "2023-04-11") == 8.3);
  CHECK(says(reading, "quality flag I"));
}

TEST_CASE("rain measured once for several days is neither one wet day nor dry days") {
  const auto flagged =
      read(days("date,tmax_c,tmin_c,rain_mm,flag", {"20,10,0,", "20,11,,S", "21,10,31.5,A2", "20,10,1,"}));
  CHECK(rain(flagged, "2024-06-01") == 0.0);
  CHECK(std::isnan(rain(flagged, "2024-06-02")));
  CHECK(std::isnan(rain(flagged, "2024-06-03")));
  CHECK(rain(flagged, "2024-06-04") == 1.0);
  CHECK(says(flagged, "31.5 mm fell over the 2 days 2024-06-02 to 2024-06-03"));
}

TEST_CASE("a daily running total becomes amounts, and a reset no negative rain") {
  const auto reading = read(days("date,tmax_c,tmin_c,rain_year_mm",
                                 {"20,10,100", "21,11,104.5", "22,10,104.5", "23,9,0", "24,9,2"}));
  CHECK(rain(reading, "2024-06-02") == Approx(4.5));
  CHECK(rain(reading, "2024-06-03") == 0.0);
  CHECK(std::isnan(rain(reading, "2024-06-04")));
  CHECK(rain(reading, "2024-06-05") == 2.0);
  CHECK(says(reading, "a reset"));
}

TEST_CASE("a probe file with soil alone is read, daily or by the hour") {
  const auto daily = read("date,soil_2in_f\n2024-06-01,68\n2024-06-02,\n2024-06-03,70\n");
  CAPTURE(said(daily));
  CHECK(soil(daily, 5.08, "2024-06-01") == Approx(20.0));
  CHECK(daily.days_with_data == 2);
  CHECK(daily.missing_days == 1);
  std::string hourly = "time,Soil Temp 5cm (C)\n";
  for (int hour = 0; hour < 24; ++hour)
    hourly += "2024-06-01 " + std::string(hour < 10 ? "0" : "") + std::to_string(hour) + ":00," +
              std::to_string(10 + hour % 2) + "\n";
  const auto probe = read(hourly);
  CHECK(probe.outcome == Outcome::ok);
  CHECK(probe.days_with_data == 1);
  CHECK(soil(probe, 5.0, "2024-06-01") == Approx(10.5));
}

TEST_CASE("a probe read once a week is no record with holes") {
  const auto weekly = read("date,soil_2in_f\n2024-06-01,68\n2024-06-08,66\n2024-06-15,70\n");
  CHECK(weekly.outcome == Outcome::ok);
  CHECK(weekly.missing_days == 12);
}

TEST_CASE("a logger table with four heading lines and a heading on two lines are read") {
  const auto logger = read(
      "\"TOA\",\"unit "
      "7\",\"x\",\"123\"\n\"TIMESTAMP\",\"RECORD\",\"AirTC_Max\",\"AirTC_Min\",\"Rain_mm_Tot\"\n"
      "\"TS\",\"RN\",\"Deg C\",\"Deg C\",\"mm\"\n\"\",\"\",\"Max\",\"Min\",\"Tot\"\n"
      "\"2024-05-01 00:00:00\",1,20.5,10.1,0.2\n\"2024-05-02 00:00:00\",2,21.5,9.8,0\n");
  CAPTURE(said(logger));
  CHECK(logger.outcome == Outcome::ok);
  CHECK(high(logger, "2024-05-02") == 21.5);
  const auto export_file = read(
      "\t\tTemp\tHi\tLow\tOut\t\nDate\tTime\tOut\tTemp\tTemp\tHum\tRain\n"
      "5/13/24\t12:00a\t55.1\t56.1\t54.1\t80\t0.00\n5/13/24\t8:00a\t54.1\t55.1\t53.1\t80\t0.00\n"
      "5/13/24\t4:00p\t75.1\t77.1\t73.1\t80\t0.01\n",
      with_units("F,in"));
  CAPTURE(said(export_file));
  REQUIRE(export_file.columns.size() == 7);
  CHECK(export_file.columns[3].quantity == "tmax");
  CHECK(export_file.columns[4].quantity == "tmin");
  CHECK(export_file.hours.at(2).minute_of_day == 16 * 60);
}

TEST_CASE("a probe file without a depth asks for it, and the option gives it") {
  const std::string text = "date,soil temp c\n2024-06-01,18\n2024-06-02,19\n";
  CHECK(says(read(text), "soil 5 cm"));
  CHECK(read(text).outcome == Outcome::error);
  const auto named = read(text, with_columns("soil temp c=soil 5 cm"));
  CAPTURE(said(named));
  CHECK(named.outcome == Outcome::ok);
  CHECK(soil(named, 5.0, "2024-06-02") == 19.0);
  CHECK(soil(read("2024-06-01,18\n2024-06-02,19\n", with_columns("date,soil 2 in")), 5.08, "2024-06-01") ==
        18.0);
}

TEST_CASE("columns can be named by position and by heading") {
  const auto position = read("20240601,10,20,1.5\n20240602,11,21,0\n", with_columns("date,tmin,tmax,rain"));
  CHECK(high(position, "2024-06-01") == 20.0);
  CHECK(rain(position, "2024-06-01") == 1.5);
  const auto heading = read("alpha,beta,gamma\n2024-06-01,20,10\n2024-06-02,21,11\n",
                            with_columns("alpha=date,beta=tmax,gamma=tmin"));
  CAPTURE(said(heading));
  CHECK(low(heading, "2024-06-02") == 11.0);
  const auto replaced =
      read("date,tmin_c,tmax_c,true_high_c\n2024-06-01,10,19,20\n", with_columns("true_high_c=tmax"));
  CHECK(high(replaced, "2024-06-01") == 20.0);
}

TEST_CASE("wrong column options are problems of the request with the nearest word") {
  const auto quantity = read("20240601,10,20\n", with_columns("date,tmim,tmax"));
  REQUIRE(quantity.refusal);
  CHECK(quantity.refusal->family == soilclock::Family::request);
  CHECK(says(quantity, "did you mean 'tmin'"));
  const auto heading = read("date,tmin_c,tmax_c\n2024-06-01,10,19\n", with_columns("tmax=tmax"));
  CHECK(says(heading, "tmin_c"));
}

TEST_CASE("an unknown station lists those in the file") {
  ReadingOptions options;
  options.station = "Nroth";
  const auto reading =
      read("site,date,tmin_c,tmax_c\nNorth,2024-06-01,1,11\nSouth,2024-06-01,2,12\n", options);
  CHECK(reading.outcome == Outcome::error);
  CHECK(says(reading, "did you mean 'North'"));
}
