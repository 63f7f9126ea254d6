// SPDX-License-Identifier: MIT
#include "weather/columns/heading_meaning.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace soilclock::weather;

namespace {

struct Case {
  const char* heading;
  const char* quantity;
  const char* unit;
};

}  // namespace

TEST_CASE("headings in the words of stations, loggers and services are understood") {
  const std::vector<Case> cases{
      {"tmin_c", "tmin", "C"},
      {"High Temp (F)", "tmax", "F"},
      {"Tmax [\xC2\xB0"
       "C]",
       "tmax", "C"},
      {"Temp min (\xC2\xB0"
       "C)",
       "tmin", "C"},
      {"temperature_2m_max (\xC2\xB0"
       "C)",
       "tmax", "C"},
      {"t2m_min_K", "tmin", "K"},
      {"T2M_MAX", "tmax", ""},
      {"Air Temperature Maximum (degF)", "tmax", "F"},
      {"H\xC3\xB6"
       "chsttemperatur",
       "tmax", ""},
      {"Temp\xC3\xA9rature minimale (\xC2\xB0"
       "C)",
       "tmin", "C"},
      {"Max \xC2\xB0"
       "C",
       "tmax", "C"},
      {"maxtp", "tmax", ""},
      {"Temp, \xC2\xB0"
       "F",
       "temperature", "F"},
      {"Air \xC2\xB0"
       "C",
       "temperature", "C"},
      {"AirT_C", "temperature", "C"},
      {"AirTC_Max", "tmax", "C"},
      {"Min Air", "tmin", ""},
      {"TNK", "tmin", ""},
      {"max_tmpf", "tmax", "F"},
      {"air_t", "temperature", ""},
      {"Precip (in)", "rain", "in"},
      {"Niederschlag [mm]", "rain", "mm"},
      {"Pluie (mm)", "rain", "mm"},
      {"precip_kg_m-2", "rain", "mm"},
      {"PRECTOTCORR", "rain", ""},
      {"precipitation_sum (mm)", "rain", "mm"},
      {"rain_today_mm", "rain today", "mm"},
      {"rain_year_mm", "rain running total", "mm"},
      {"Precipitation Accumulation (in) Start of Day Values", "rain running total", "in"},
      {"soil_2in_f", "soil 5.08 cm", "F"},
      {"Soil Temp 2\" (F)", "soil 5.08 cm", "F"},
      {"Soil Temp 5cm Deg C", "soil 5 cm", "C"},
      {"SOIL 4in", "soil 10.2 cm", ""},
      {"Bodentemperatur 10 cm", "soil 10 cm", ""},
      {"soil_temperature_0_to_7cm (\xC2\xB0"
       "C)",
       "soil 3.5 cm", "C"},
      {"Soil Temperature Observed -2in (degF) Start of Day Values", "soil 5.08 cm", "F"},
      {"RH, %", "humidity", "%"},
      {"Wind, mph", "wind", "mph"},
      {"wind_speed_10m (km/h)", "wind", "km/h"},
      {"wdsp:   -  Mean Wind Speed (knot)", "wind", "kn"},
      {"unix_time", "date", ""},
      {"LST_DATE", "date", ""},
      {"valid_date", "date", ""},
      {"When", "date", ""},
      {"Datum", "date", ""},
      {"HHMM", "time", ""},
      {"hour_ending", "hour ending", ""},
      {"obs_time", "observation time", ""},
      {"DOY", "day of year", ""},
      {"PRCP_ATTRIBUTES", "attributes", ""},
      {"location_id", "station", ""},
  };
  for (const Case& c : cases) {
    const HeadingMeaning meaning = heading_meaning(c.heading);
    CAPTURE(c.heading);
    CHECK(quantity_name(meaning.quantity, meaning.depth_cm) == c.quantity);
    CHECK(std::string{unit_name(meaning.unit)} == c.unit);
  }
}

TEST_CASE("columns that only sound like air temperature or rain are not used") {
  for (const char* heading : {"Indoor T",
                              "Days of accumulation of maximum temperature",
                              "T in",
                              "Dewpoint",
                              "Dew point (\xC2\xB0"
                              "C)",
                              "temperature_300hPa",
                              "temperature_120m (\xC2\xB0"
                              "C)",
                              "Wet bulb temp",
                              "Heat index",
                              "Wind chill",
                              "gmin",
                              "Grass Minimum Temperature (C)",
                              "TOBS",
                              "T2MDEW",
                              "T2M_RANGE",
                              "Soil moisture",
                              "Soil max 5cm",
                              "Snow depth (in)",
                              "SNOW",
                              "precipitation_probability_max (%)",
                              "precipitation_hours (h)",
                              "Rain rate (mm/h)",
                              "smd_wd",
                              "Time of max temp",
                              "Pressure (hPa)",
                              "rec_no",
                              "Record",
                              "Note",
                              "sun",
                              "Apparent temperature",
                              "Leaf temp",
                              "max wind gust",
                              ""}) {
    CAPTURE(heading);
    CHECK(heading_meaning(heading).quantity == Quantity::not_used);
  }
}

TEST_CASE("the words of the column option name quantities") {
  CHECK(quantity_named("tmin")->quantity == Quantity::air_min);
  CHECK(quantity_named(" Rain ")->quantity == Quantity::rain);
  CHECK(quantity_named("soil 5 cm")->depth_cm == 5.0);
  CHECK(quantity_named("soil 2 in")->depth_cm == Approx(5.08));
  CHECK(quantity_named("skip")->quantity == Quantity::not_used);
  CHECK_FALSE(quantity_named("soil"));
  CHECK_FALSE(quantity_named("moon"));
}
