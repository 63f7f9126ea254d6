// SPDX-License-Identifier: MIT
// Encodings, delimiters, quotes, what stands around a table.
#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "weather/table/stamp_parsing.hpp"
#include "weather/table/table_splitting.hpp"
#include "weather/table/text_decoding.hpp"
#include "weather_texts.hpp"

using namespace weather_texts;
using soilclock::weather::decode_text;
using soilclock::weather::detect_delimiter;
using soilclock::weather::parse_stamp;
using soilclock::weather::Table;

namespace {

std::string utf16(std::string_view ascii, bool little_endian, bool mark) {
  std::string bytes = mark ? (little_endian ? "\xFF\xFE" : "\xFE\xFF") : "";
  for (const char c : ascii) {
    if (!little_endian) bytes += '\0';
    bytes += c;
    if (little_endian) bytes += '\0';
  }
  return bytes;
}

const std::string plain = "date,tmin_c,tmax_c,rain_mm\n2024-05-01,5.5,15.5,1.2\n2024-05-02,6.5,16.5,0\n";

void check_plain(const ParsedFile& reading) {
  CAPTURE(said(reading));
  CHECK(reading.outcome == Outcome::ok);
  CHECK(low(reading, "2024-05-01") == 5.5);
  CHECK(high(reading, "2024-05-02") == 16.5);
  CHECK(rain(reading, "2024-05-01") == 1.2);
}

}  // namespace

TEST_CASE("UTF-8 and both orders of UTF-16 read alike, with and without mark") {
  check_plain(read(plain));
  check_plain(read("\xEF\xBB\xBF" + plain));
  for (const bool little_endian : {true, false}) {
    for (const bool mark : {true, false}) check_plain(read(utf16(plain, little_endian, mark)));
  }
}

TEST_CASE("a one-byte degree sign is decoded and said") {
  const auto reading = read(
      "date;Tmin (\xB0"
      "C);Tmax (\xB0"
      "C)\n2024-05-01;5,5;15,5\n2024-05-02;6,5;16,5\n");
  CHECK(reading.outcome == Outcome::warn);
  CHECK(says(reading, "not UTF-8"));
  CHECK(low(reading, "2024-05-01") == 5.5);
  CHECK(decode_text("caf\xE9").text() == "caf\xC3\xA9");
  CHECK(decode_text("\x96").text() == "\xE2\x80\x93");
}

TEST_CASE("a character outside the basic plane survives UTF-16") {
  const std::string bytes{"\xFF\xFE\x3D\xD8\x00\xDE", 6};
  CHECK(decode_text(bytes).text() == "\xF0\x9F\x98\x80");
}

TEST_CASE(
    "the delimiter is the one that cuts most lines alike, not the commas and blanks inside numbers and "
    "stamps") {
  CHECK(detect_delimiter("a;b;c\n1,5;2,5;3,5\n1,5;2,5;3,5\n") == ';');
  CHECK(detect_delimiter("date time,t\n2024-01-01 00:00,1\n2024-01-01 01:00,2\n") == ',');
  CHECK(detect_delimiter("a\tb\n1 2\t3\n") == '\t');
  CHECK(detect_delimiter("DATE  TMIN  TMAX\n2024-01-01   1.0   2.0\n") == ' ');
}

TEST_CASE("quotes keep delimiters, doubled quotes and line breaks, and line numbers stay those of the file") {
  const Table table{"a,b\n\"x, \"\"y\"\"\nz\",2\n3,4\n", ','};
  REQUIRE(table.size() == 3);
  CHECK(table.field(1, 0) == "x, \"y\"\nz");
  CHECK(table.field(1, 1) == "2");
  CHECK(table.line(2) == 4);
}

TEST_CASE("a lost quote does not swallow the rows after it") {
  std::string text = "date,tmin_c,tmax_c,note\n2024-05-01,1,11,\"lost\n";
  for (int day = 2; day <= 28; ++day) {
    text += "2024-05-" + std::string(day < 10 ? "0" : "") + std::to_string(day) + ",1,11," +
            std::string(200, 'x') + "\n";
  }
  CHECK(read(text).days_with_data == 28);
}

TEST_CASE("old and new line ends read alike") {
  check_plain(read("date,tmin_c,tmax_c,rain_mm\r2024-05-01,5.5,15.5,1.2\r2024-05-02,6.5,16.5,0\r"));
  check_plain(read("date,tmin_c,tmax_c,rain_mm\r\n2024-05-01,5.5,15.5,1.2\r\n2024-05-02,6.5,16.5,0"));
}

TEST_CASE("records and fields keep their text however far, long or quoted they are") {
  const std::string far(70'000, 'x');
  const std::string text = "a,b\r\n" + far + ",after,\"two\nlines\",\"a \"\"word\"\"\"\r\r\n  c\t, \vd ,\n" +
                           far.substr(0, 40'000) + ",e";
  const Table table{text, ','};
  REQUIRE(table.size() == 5);
  CHECK(table.whole(0) == "a,b");
  CHECK(table.field(1, 0) == far);
  CHECK(table.field(1, 1) == "after");
  CHECK(table.field(1, 2) == "two\nlines");
  CHECK(table.field(1, 3) == "a \"word\"");
  CHECK(table.width(1) == 4);
  CHECK(table.field(1, 4).empty());
  CHECK(table.whole(1).ends_with("\"a \"\"word\"\"\""));
  CHECK(table.whole(2).empty());
  CHECK(table.blank(2));
  CHECK(table.whole(3) == "  c\t, \vd ,");
  CHECK(table.field(3, 0) == "c");
  CHECK(table.field(3, 1) == "d");
  CHECK(table.width(3) == 3);
  CHECK(table.field(4, 0).size() == 40'000);
  CHECK(table.field(4, 1) == "e");
  CHECK(table.whole(4).ends_with(",e"));
  CHECK_FALSE(table.ends_with_newline());
  // A line break within quotes counts as a line of the file.
  CHECK(table.line(1) == 2);
  CHECK(table.line(2) == 4);
  CHECK(table.line(4) == 6);
  CHECK(Table{"", ','}.size() == 0);
}

TEST_CASE("a stamp in the plain form is what the same moment is in another form") {
  for (const char* clock : {"00:00", "09:05", "23:59"}) {
    for (const char* mark : {" ", "T"}) {
      const auto plain_form = parse_stamp(std::string{"2024-02-29"} + mark + clock);
      const auto other_form = parse_stamp(std::string{"2024/02/29 "} + clock);
      REQUIRE(plain_form);
      REQUIRE(other_form);
      CHECK(plain_form->form == other_form->form);
      CHECK(plain_form->a == other_form->a);
      CHECK(plain_form->b == other_form->b);
      CHECK(plain_form->c == other_form->c);
      CHECK(plain_form->minute == other_form->minute);
      CHECK_FALSE(plain_form->offset_minutes);
    }
  }
  CHECK(parse_stamp("2024-02-29 24:00")->minute == 1440);
  for (const char* text : {"2024-02-29 24:01", "2024-02-29 12:60", "2024-02-29 1x:00", "2024-0x-29",
                           "2024-02-29x12:00", "2024-02-29 12.30", "2024-02/29 12:30"})
    CHECK_FALSE(parse_stamp(text));
}

TEST_CASE("hours that are not to be kept change nothing else") {
  std::string hours = "time,temp_c,rain_mm\n";
  for (int hour = 0; hour < 72; ++hour)
    hours += fmt::format("2024-05-{:02} {:02}:00,{}.5,0.1\n", 1 + hour / 24, hour % 24, hour % 24);
  ReadingOptions days_only;
  days_only.keep_hours = false;
  const auto with = read(hours);
  const auto without = read(hours, days_only);
  CHECK(with.hours.size() == 72);
  CHECK(without.hours.empty());
  CHECK(without.outcome == with.outcome);
  CHECK(high(without, "2024-05-02") == high(with, "2024-05-02"));
  CHECK(rain(without, "2024-05-02") == rain(with, "2024-05-02"));
}

TEST_CASE("a reading tells whether a sentence named a value in the units asked for") {
  const auto units_said = [](const std::string& text) {
    bool said_units = false;
    ReadingOptions options;
    options.units_said = &said_units;
    read(text, options);
    return said_units;
  };
  CHECK_FALSE(units_said(plain));
  CHECK_FALSE(units_said("date,tmin_c,tmax_c\n2024-05-01,5.5,M\n2024-05-02,6.5,16.5\n"));
  CHECK(units_said("date,tmin_c,tmax_c\n2024-05-01,5.5,75.5\n2024-05-02,6.5,16.5\n2024-05-03,6.5,16.5\n"));
}

TEST_CASE("a preamble gives place and clock, a units line the units") {
  const auto reading = read(
      "Station: green 7\nLatitude 39.5 N Longitude 83.25 W Elevation 250 m\nTime zone: UTC-05:00 (standard "
      "time all year)\n\n"
      "Date,Air max,Air min,Rain\n,deg F,deg F,in\n2024-05-01,68,50,0.10\n2024-05-02,70,52,0\n");
  CAPTURE(said(reading));
  CHECK(reading.outcome == Outcome::ok);
  CHECK(reading.place->latitude_deg == 39.5);
  CHECK(reading.place->longitude_deg == -83.25);
  CHECK(reading.daily.day_definition == "local standard time");
  CHECK(high(reading, "2024-05-01") == Approx(20.0));
  CHECK(rain(reading, "2024-05-01") == Approx(2.54));
}

TEST_CASE("texts that are something else are named") {
  CHECK(says(read(""), "the file is empty"));
  CHECK(says(read(" \n\n"), "the file is empty"));
  CHECK(says(read("<!DOCTYPE html><html>"), "web page"));
  CHECK(says(read("PK\x03\x04 rest"), "workbook"));
  CHECK(says(read("{\"a\":1}"), "JSON"));
  CHECK(says(read(std::string_view{"date,tmin_c\n\0\0\1", 15}), "binary"));
  CHECK(says(read("hello\nworld\n"), "no weather table"));
}

TEST_CASE("every refusal is a data problem with a file and a remedy") {
  for (const char* text : {"", "<html>", "date,tmin_c,tmax_c\n", "20230315,1,2\n20230316,2,3\n", "a,b\n1,2\n",
                           "date,tmin_c,tmax_c\n2023-02-29,1,2\n"}) {
    const auto reading = read(text);
    CAPTURE(text, said(reading));
    REQUIRE(reading.outcome == Outcome::error);
    REQUIRE(reading.refusal);
    CHECK(reading.refusal->family == soilclock::Family::data);
    CHECK(reading.refusal->where.file == "t.csv");
    CHECK_FALSE(reading.refusal->remedy.empty());
    CHECK_FALSE(reading.refusal->expected.empty());
  }
}

TEST_CASE("decimal commas in a comma-separated table are refused by name") {
  const auto reading = read("date,tmin_c,tmax_c\n2024-05-01,5,5,15,5\n2024-05-02,6,5,16,5\n");
  CHECK(reading.outcome == Outcome::error);
  CHECK(says(reading, "decimal commas"));
}

TEST_CASE("two decimal marks in one column are refused with both lines") {
  const auto reading = read("date;tmin_c;tmax_c\n2024-05-01;5,5;15\n2024-05-02;6.5;16\n");
  CHECK(reading.outcome == Outcome::error);
  CHECK(says(reading, "lines 2 and 3"));
}

TEST_CASE("two tables and a table of places in one answer are joined") {
  const auto reading = read(
      "latitude,longitude,elevation,utc_offset_seconds,timezone\n39.97,-82.98,247.0,-14400,America/"
      "New_York\n\n"
      "time,temperature_2m (\xC2\xB0"
      "C),soil_temperature_0_to_7cm (\xC2\xB0"
      "C)\n"
      "2024-05-01T00:00,11,13\n2024-05-01T06:00,9,13\n2024-05-01T12:00,19,15\n2024-05-01T18:00,18,15\n\n"
      "time,temperature_2m_max (\xC2\xB0"
      "C),temperature_2m_min (\xC2\xB0"
      "C),precipitation_sum (mm)\n2024-05-01,20.8,8.4,1.6\n");
  CAPTURE(said(reading));
  REQUIRE(reading.outcome != Outcome::error);
  CHECK(high(reading, "2024-05-01") == 20.8);
  CHECK(rain(reading, "2024-05-01") == 1.6);
  CHECK(soil(reading, 3.5, "2024-05-01") == 14.0);
  CHECK(reading.hours.size() == 4);
  CHECK(reading.place->elevation_m == 247.0);
  CHECK(reading.daily.day_definition == "fixed offset UTC-04:00");
}
