// SPDX-License-Identifier: MIT
// Headings that must not be read as what they only resemble: qualified ones, other dates, units in words,
// sensor numbers, other languages.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include "weather/columns/heading_meaning.hpp"
#include "weather_texts.hpp"

using namespace soilclock::weather;
using namespace weather_texts;

namespace {

/// A month of days; `cell` is written ahead of date, maximum, minimum and rain.
std::string with_first_column(const std::string& heading, const std::string& rest,
                              const std::string& (*cell)(int)) {
  std::string text = heading + "," + rest + "\n";
  for (int day = 1; day <= 30; ++day)
    text += fmt::format("{},2024-06-{:02},{},{},{}\n", cell(day), day, 24 + day % 5, 12 + day % 4,
                        day % 3 == 0 ? 4 : 0);
  return text;
}

const std::string& later_date(int day) {
  static std::string text;
  text = fmt::format("2024-07-{:02}", day);
  return text;
}

const std::string& warm_value(int day) {
  static std::string text;
  text = fmt::format("{}", 30 + day % 6);
  return text;
}

std::string months_of(const std::string& headings, const std::vector<std::string>& cells) {
  std::string text = headings + "\n";
  for (int day = 1; day <= 30; ++day)
    text += fmt::format("2024-06-{:02},{}\n", day, cells[static_cast<std::size_t>(day) % cells.size()]);
  return text;
}

}  // namespace

TEST_CASE("a plain date wins over any other date, wherever it stands") {
  for (const char* heading :
       {"Issue date", "Download date", "Sunrise", "Printed on", "Created", "Entry date", "Last Modified Date",
        "Forecast date", "Export timestamp", "Plonk date", "Fecha de descarga"}) {
    const auto reading = read(with_first_column(heading, "Date,Tmax (C),Tmin (C),Rain (mm)", later_date));
    CAPTURE(heading, said(reading));
    REQUIRE(reading.first_date);
    CHECK(soilclock::iso(*reading.first_date) == "2024-06-01");
  }
}

TEST_CASE("another date alone is a question, and the option answers it") {
  for (const char* heading : {"Issue date", "Download date", "Sunrise", "Created", "Last update"}) {
    const std::string text =
        months_of(std::string{heading} + ",Tmax (C),Tmin (C)", {"25,12", "26,13", "27,11"});
    const auto reading = read(text);
    CAPTURE(heading, said(reading));
    CHECK(reading.outcome == Outcome::error);
    CHECK(says(reading, "--columns"));
    CHECK(read(text, with_columns(std::string{heading} + "=date")).outcome != Outcome::error);
  }
  CHECK(says(read(months_of("Plonk date,Tmax (C),Tmin (C)", {"25,12", "26,13"})), "'plonk'"));
}

TEST_CASE("two dates that are equally plain and differ are a question, and agree silently") {
  const auto differ =
      read(with_first_column("Date", "Observation date,Tmax (C),Tmin (C),Rain (mm)", later_date));
  CHECK(differ.outcome == Outcome::error);
  CHECK(says(differ, "they differ"));
  const auto agree =
      read("Date,Day,Tmax (C),Tmin (C)\n2024-06-01,06/01/2024,25,12\n2024-06-13,06/13/2024,26,13\n");
  CHECK(agree.outcome != Outcome::error);
}

TEST_CASE("the plain heading wins over every qualified one") {
  for (const char* heading : {"Forecast high (C)",
                              "Previous day max temp (C)",
                              "Normal max temp (C)",
                              "Average high (C)",
                              "Departure max temp (C)",
                              "Hour of max temp",
                              "Heat index max (C)",
                              "Dew point max (C)",
                              "Set point max temp (C)",
                              "Battery max temp (C)",
                              "Max temp percentile",
                              "Max temp last 7 days (C)",
                              "Month to date max temp (C)",
                              "Record high (C)",
                              "Yesterday high (C)",
                              "Max temp 2 (C)",
                              "Tmax plonk (C)",
                              "Max temp 10 m (C)",
                              "Max temp 5 cm (C)",
                              "Year to date max temp (C)",
                              "Temp max difference (C)",
                              "Tomorrow high (C)",
                              "Greenhouse max temp (C)",
                              "Water max temp (C)"}) {
    const auto reading = read(with_first_column(heading, "Date,Tmax (C),Tmin (C),Rain (mm)", warm_value));
    CAPTURE(heading, said(reading));
    REQUIRE(reading.outcome != Outcome::error);
    CHECK(high(reading, "2024-06-01") == 25.0);
    CHECK(rain(reading, "2024-06-03") == 4.0);
  }
}

TEST_CASE("a qualified heading alone is a question, an unknown word a doubt") {
  for (const char* heading :
       {"Forecast high (C)", "Normal max temp (C)", "Average high (C)", "Record high (C)",
        "Max temp last 7 days (C)", "Previous day max temp (C)", "Heat index max (C)", "Hour of max temp",
        "Max temp percentile", "Max temp 5 cm (C)"}) {
    const auto reading = read(months_of(std::string{"Date,Tmin (C),"} + heading, {"12,25", "13,26"}));
    CAPTURE(heading, said(reading));
    CHECK(reading.outcome == Outcome::error);
    CHECK(says(reading, heading));
  }
  CHECK(says(read(months_of("Date,Tmin (C),Tmax plonk (C)", {"12,25", "13,26"})), "'plonk'"));
  CHECK(says(read(months_of("Date,Tmin (C),Max temp 7 (C)", {"12,25", "13,26"})), "'7'"));
}

TEST_CASE("rain that goes unread is said first") {
  for (const char* heading :
       {"Rain forecast (mm)", "Rain last 7 days (mm)", "Normal rain (mm)", "Rain rate (mm/h)",
        "Neerslag (mm)", "Rain probability (%)", "Rain previous day (mm)", "Rain level (mm)",
        "Average rain (mm)", "Water fallen (mm)", "Rain (mm/month)"}) {
    const auto reading =
        read(months_of(std::string{"Date,Tmin (C),Tmax (C),"} + heading, {"12,25,3", "13,26,0", "11,24,7"}));
    CAPTURE(heading, said(reading));
    REQUIRE(reading.outcome == Outcome::warn);
    CHECK(reading.doubts.front().text.find("no rain is read") == 0);
    CHECK(reading.daily.rain.empty());
  }
  CHECK_FALSE(says(read(months_of("Date,Tmin (C),Tmax (C),Rain (mm),Rain rate (mm/h)", {"12,25,3,1"})),
                   "no rain is read"));
}

TEST_CASE("units written in words, signs and parts are read as they are") {
  struct Case {
    const char* unit;
    double mm;  // of a cell of 40
  };
  for (const Case& c : {Case{"mm", 40.0}, Case{"cm", 400.0}, Case{"0.1 mm", 4.0}, Case{"tenths of mm", 4.0},
                        Case{"1/10 mm", 4.0}, Case{"mm x 10", 4.0}, Case{"hundredths of mm", 0.4},
                        Case{"hundredths of an inch", 10.16}, Case{"1/100 in", 10.16}, Case{"0.01 in", 10.16},
                        Case{"0.01\"", 10.16}, Case{"tenths of inch", 101.6}, Case{"in/1000", 1.016},
                        Case{"l/m2", 40.0}, Case{"kg m-2", 40.0}, Case{"Zehntel mm", 4.0}}) {
    std::string text = fmt::format("Date;Tmin (C);Tmax (C);Rain ({})\n", c.unit);
    for (int day = 1; day <= 30; ++day)
      text += fmt::format("2024-06-{:02};{};{};40\n", day, 11 + day % 3, 24 + day % 4);
    const auto plain = read(text);
    CAPTURE(said(plain));
    REQUIRE(plain.outcome != Outcome::error);
    CHECK(rain(plain, "2024-06-05") == Approx(c.mm));
  }
  for (const char* unit : {"\"", "\xE2\x80\xB3", "in", "inches", "inch"}) {
    std::string text = fmt::format("Date;Tmin (C);Tmax (C);Rain ({})\n", unit);
    for (int day = 1; day <= 30; ++day)
      text += fmt::format("2024-06-{:02};{};{};0.5\n", day, 11 + day % 3, 24 + day % 4);
    CAPTURE(unit);
    CHECK(rain(read(text), "2024-06-05") == Approx(12.7));
  }
  for (const auto& [unit, mm] : {std::pair{"m", 5.0}, std::pair{"ft", 1.524}}) {
    std::string text = fmt::format("Date;Tmin (C);Tmax (C);Rain ({})\n", unit);
    for (int day = 1; day <= 30; ++day)
      text += fmt::format("2024-06-{:02};{};{};0.005\n", day, 11 + day % 3, 24 + day % 4);
    CAPTURE(unit);
    CHECK(rain(read(text), "2024-06-05") == Approx(mm));
  }
}

TEST_CASE("parts of degrees are read as they are") {
  struct Case {
    const char* unit;
    double factor;
    bool fahrenheit;
  };
  for (const Case& c :
       {Case{"tenths C", 10, false},
        Case{"0.1 \xC2\xB0"
             "C",
             10, false},
        Case{"\xC2\xB0"
             "C x 10",
             10, false},
        Case{"hundredths C", 100, false}, Case{"tenths F", 10, true}, Case{"1/100 F", 100, true}}) {
    std::string text = fmt::format("Date,Tmin ({}),Tmax ({})\n", c.unit, c.unit);
    const auto number = [&](double celsius) {
      return (c.fahrenheit ? celsius * 1.8 + 32.0 : celsius) * c.factor;
    };
    for (int day = 1; day <= 30; ++day)
      text += fmt::format("2024-06-{:02},{:.0f},{:.0f}\n", day, number(10 + day % 5), number(20 + day % 5));
    const auto reading = read(text);
    CAPTURE(c.unit, said(reading));
    REQUIRE(reading.outcome != Outcome::error);
    CHECK(high(reading, "2024-06-05") == Approx(20.0));
    CHECK(low(reading, "2024-06-07") == Approx(12.0));
  }
}

TEST_CASE("a written unit that is not understood is a question, and the option answers it") {
  for (const char* heading :
       {"Rain (furlong)", "Rain (tenths)", "Rain (points)", "Rain (mil)", "Rain (0.2 mm)", "Rain (\xC2\xB5m)",
        "rain_cubits", "Rain [dm]", "Rain (mm or in)"}) {
    const std::string text =
        months_of(std::string{"Date,Tmin (C),Tmax (C),"} + heading, {"12,25,3", "13,26,0", "11,24,7"});
    const auto reading = read(text);
    CAPTURE(heading, said(reading));
    CHECK(reading.outcome == Outcome::error);
    CHECK(says(reading, "--units-in mm"));
    CHECK(rain(read(text, with_units("mm")), "2024-06-01") == 0.0);
  }
  for (const char* unit : {"\xC2\xB0R", "tenths", "C/F", "degrees of the old scale"}) {
    const auto reading =
        read(months_of(fmt::format("Date,Tmin ({}),Tmax ({})", unit, unit), {"12,25", "13,26"}));
    CAPTURE(unit, said(reading));
    CHECK(reading.outcome == Outcome::error);
  }
  CHECK(says(read(months_of("Date,Tmin (C),Tmax (C),Rain (0.1 mm)", {"12,25,3.5", "13,26,0"})),
             "have decimals"));
}

TEST_CASE("the number of a sensor is no depth, and two numbers are a layer only with a sign between them") {
  CHECK_FALSE(heading_meaning("Soil Temp 2 (C)").depth_cm);
  CHECK(heading_meaning("Soil Temp 2 5cm (C)").depth_cm == 5.0);
  CHECK(heading_meaning("Soil temp 0\xE2\x80\x93"
                        "7 cm (C)")
            .depth_cm == 3.5);
  CHECK(heading_meaning("soil_temperature_0_to_7cm").depth_cm == 3.5);
  CHECK(heading_meaning("Soil temperature 50 mm").depth_cm == Approx(5.0));
  CHECK(heading_meaning("Soil temp 0.1 m (C)").depth_cm == Approx(10.0));
  CHECK(heading_meaning("Soil Temp sensor 3 at 4 in (F)").depth_cm == Approx(10.16));
  CHECK(says(read(months_of("Date,Soil Temp 2 (C)", {"18", "19"})), "is not that"));
}

TEST_CASE("headings of other languages are understood") {
  for (const char* headings : {"Fecha,Temperatura m\xC3\xADnima (\xC2\xB0"
                               "C),Temperatura m\xC3\xA1xima (\xC2\xB0"
                               "C),Precipitaci\xC3\xB3n (mm),Temperatura del suelo a 5 cm (\xC2\xB0"
                               "C)",
                               "FECHA,TEMPERATURA M\xC3\x8DNIMA (\xC2\xB0"
                               "C),TEMPERATURA M\xC3\x81XIMA (\xC2\xB0"
                               "C),LLUVIA (MM),TEMPERATURA SUELO 5 CM (\xC2\xB0"
                               "C)",
                               "Date,Temp\xC3\xA9rature minimale (\xC2\xB0"
                               "C),Temp\xC3\xA9rature maximale (\xC2\xB0"
                               "C),Pr\xC3\xA9"
                               "cipitations (mm),Temp\xC3\xA9rature du sol \xC3\xA0 5 cm (\xC2\xB0"
                               "C)",
                               "Datum,Tiefsttemperatur [\xC2\xB0"
                               "C],H\xC3\xB6"
                               "chsttemperatur [\xC2\xB0"
                               "C],Niederschlagsmenge [mm],Bodentemperatur in 5 cm Tiefe [\xC2\xB0"
                               "C]",
                               "Data,Temperatura minima (\xC2\xB0"
                               "C),Temperatura massima (\xC2\xB0"
                               "C),Pioggia (mm),Temperatura del suolo a 5 cm (\xC2\xB0"
                               "C)",
                               "Data,Temperatura m\xC3\xADnima (\xC2\xB0"
                               "C),Temperatura m\xC3\xA1xima (\xC2\xB0"
                               "C),Precipita\xC3\xA7\xC3\xA3o (mm),Temperatura do solo a 5 cm (\xC2\xB0"
                               "C)"}) {
    const auto reading = read(months_of(headings, {"12,25,3,18", "13,26,0,19", "11,24,7,17"}));
    CAPTURE(headings, said(reading));
    REQUIRE(reading.outcome == Outcome::ok);
    CHECK(low(reading, "2024-06-01") == 13.0);
    CHECK(high(reading, "2024-06-01") == 26.0);
    CHECK(rain(reading, "2024-06-02") == 7.0);
    CHECK(soil(reading, 5.0, "2024-06-02") == 17.0);
  }
  CHECK(heading_meaning("Temperatura media (\xC2\xB0"
                        "C)")
            .quantity == Quantity::air_mean);
  CHECK(heading_meaning("Temp\xC3\xA9rature moyenne").quantity == Quantity::air_mean);
  CHECK(heading_meaning("Lufttemperatur 2 m \xC3\xBC"
                        "ber dem Boden (\xC2\xB0"
                        "C)")
            .quantity == Quantity::air);
}

TEST_CASE("headings that begin with a height or hold a time are understood") {
  const auto reading = read(months_of("Date,2m T min (F),2m T max (F)", {"54,77", "55,78", "52,75"}));
  CAPTURE(said(reading));
  CHECK(reading.outcome == Outcome::ok);
  CHECK(high(reading, "2024-06-01") == Approx(25.5556).margin(0.001));
}
