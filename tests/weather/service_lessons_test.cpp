// SPDX-License-Identifier: MIT
// Mistakes that users of weather services have reported in public, each as an invented answer that would make
// it again. Lessons about tables stand with the tests of tables.
#include <catch2/catch.hpp>
#include <set>

#include "service_texts.hpp"

using namespace weather_texts;
using namespace service_texts;

namespace {

std::string unixtime_days(int offset, const std::string& zone, const std::vector<long long>& times) {
  std::string list_of_times;
  std::string values;
  for (std::size_t i = 0; i < times.size(); ++i) {
    list_of_times += (i == 0 ? "" : ",") + std::to_string(times[i]);
    values += (i == 0 ? "" : ",") + std::to_string(10 + i);
  }
  return "{" + point_head(offset, zone) +
         R"(,"daily_units":{"time":"unixtime","temperature_2m_max":"°C"},"daily":{"time":[)" + list_of_times +
         R"(],"temperature_2m_max":[)" + values + "]}}";
}

/// A grid of one layer beside two whole days of extremes; zone Eastern.
std::string grid(const std::string& layers) {
  return R"({"type":"Feature","geometry":{"type":"Polygon","coordinates":[[[-85,30],[-84,30],[-84,31],[-85,31],[-85,30]]]},
  "properties":{"updateTime":"2022-02-04T03:15:41+00:00","gridX":58,"gridY":"65",
  "maxTemperature":{"uom":"unit:degC","values":[
    {"validTime":"2022-02-04T12:00:00+00:00/PT13H","value":20},{"validTime":"2022-02-05T12:00:00+00:00/PT13H","value":21}]},
  "minTemperature":{"uom":"wmoUnit:degC","values":[
    {"validTime":"2022-02-04T00:00:00+00:00/PT14H","value":10},{"validTime":"2022-02-05T00:00:00+00:00/PT14H","value":null}]})" +
         (layers.empty() ? "" : "," + layers) + "}}";
}

}  // namespace

TEST_CASE("T01: days in Unix seconds stay one after another over the end of summer time") {
  // Midnights of the offset asked for, one day apart, over 26 October 2025.
  const auto read = answer(
      unixtime_days(7200, "Europe/Vienna", {1761256800, 1761343200, 1761429600, 1761516000, 1761602400}));
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(soilclock::iso(*reading.first_date) == "2025-10-24");
  CHECK(soilclock::iso(*reading.last_date) == "2025-10-28");
  CHECK(reading.daily.air_max.count_missing() == 0);
}

TEST_CASE("T02: a winter offset on summer days is said to make standard-time days") {
  const auto read = answer(unixtime_days(-18000, "America/New_York", {1719810000, 1735707600}));
  REQUIRE(read.has_value());
  CHECK(says(read->series.front().reading, "UTC-05:00"));
  CHECK(says(read->series.front().reading, "standard-time days"));
  CHECK(read->series.front().reading.daily.day_definition == "fixed offset UTC-05:00");
}

TEST_CASE("T03: a range over a change of the clock is noted, a range without one is not") {
  // Denver, 1 to 11 March 2026, asked for in summer time.
  std::vector<long long> days;
  days.reserve(11);
  for (int i = 0; i < 11; ++i) days.push_back(1772344800LL + i * 86400LL);
  const auto crossing = answer(unixtime_days(-21600, "America/Denver", days));
  REQUIRE(crossing.has_value());
  CHECK(soilclock::iso(*crossing->series.front().reading.first_date) == "2026-03-01");
  CHECK(says(crossing->series.front().reading, "the clock changes within the answer (first on 2026-03-08)"));
  const auto within = answer(unixtime_days(-25200, "America/Denver", {1772348400, 1772434800}));
  REQUIRE(within.has_value());
  CHECK_FALSE(says(within->series.front().reading, "clock"));
}

TEST_CASE("T05: days asked for without a zone are said to be UTC days") {
  const auto read = answer(daily_answer(extremes_units, extremes_columns, 0, "GMT"));
  REQUIRE(read.has_value());
  CHECK(says(read->series.front().reading, "the days are UTC days"));
  CHECK(read->series.front().reading.daily.day_definition == "UTC");
  // Where the site's zone is known it is named.
  const auto named =
      answer(daily_answer(extremes_units, extremes_columns, 0, "GMT"), in_zone("America/New_York"));
  CHECK(says(named->series.front().reading, "the days are UTC days, not days of America/New_York"));
}

TEST_CASE("T07: an answer whose offset its own zone never keeps is refused") {
  const auto said = refusal(daily_answer(extremes_units, extremes_columns, 0, "America/New_York"));
  CHECK(has(said, "stamps and zone disagree"));
  CHECK(has(said, "America/New_York"));
  for (const int offset : {-18000, -14400})
    CHECK(refusal(daily_answer(extremes_units, extremes_columns, offset, "America/New_York")).empty());
}

TEST_CASE("T08: a day that is null inside a reanalysis is a missing day, named") {
  const auto read = answer(daily_answer(
      extremes_units + R"(,"precipitation_sum":"mm")",
      R"("temperature_2m_max":[20,null,22],"temperature_2m_min":[10,null,12],"precipitation_sum":[0,null,1])"));
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(reading.missing_days == 1);
  CHECK(says(reading, "2024-05-02"));
  CHECK(std::isnan(rain(reading, "2024-05-02")));
}

TEST_CASE("T08: extremes beside a null mean are those of part of a day and are not used") {
  const auto read = answer(daily_answer(extremes_units + R"(,"temperature_2m_mean":"°C")",
                                        extremes_columns + R"(,"temperature_2m_mean":[15,null,16])"));
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(std::isnan(high(reading, "2024-05-02")));
  CHECK(high(reading, "2024-05-03") == 22.0);
  CHECK(says(reading, "the daily mean is null beside numbers for the extremes"));
}

TEST_CASE("T17: a column that is null for one model names the variable and the model") {
  const auto read = answer(daily_answer(
      R"("temperature_2m_max_a":"°C","precipitation_sum_a":"mm","temperature_2m_max_b":"°C","precipitation_sum_b":"mm")",
      R"("temperature_2m_max_a":[1,2,3],"precipitation_sum_a":[null,null,null],"temperature_2m_max_b":[1,2,3],"precipitation_sum_b":[0,0,0])"));
  REQUIRE(read.has_value());
  REQUIRE(read->series.size() == 2);
  CHECK(says(read->series[0].reading, "all 3 values of 'precipitation_sum' are null of model a"));
  CHECK_FALSE(says(read->series[1].reading, "null"));
}

TEST_CASE("T19: rain is stamped at the end of its hour, temperature at its moment") {
  // Rain stamped 00:00 UTC fell before midnight, the temperature stamped 00:00 is of the new day.
  std::vector<double> air(48, 10.0);
  std::vector<double> wet(48, 0.0);
  air[24] = 30.0;
  wet[24] = 5.0;
  const auto read = answer(hourly_answer(Instant{soilclock::make_day(2024, 5, 1)}, air, wet), in_zone("UTC"));
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(high(reading, "2024-05-01") == 10.0);
  CHECK(high(reading, "2024-05-02") == 30.0);
  CHECK(reading.hours[24].rain->mm() == 5.0);
  // The first hour of 1 May is stamped 01:00 and the last 00:00 of the next day: all 24 are there.
  CHECK(rain(reading, "2024-05-01") == 5.0);
}

TEST_CASE("T22: rain is the total of its interval and is never repeated for its hours") {
  // 6 mm in the six hours around local midnight (05:00 UTC): half on either day; the rest of both days is
  // dry.
  const auto read = answer(grid(R"("quantitativePrecipitation":{"uom":"wmoUnit:mm","values":[
    {"validTime":"2022-02-04T05:00:00+00:00/PT21H","value":0},{"validTime":"2022-02-05T02:00:00+00:00/PT6H","value":6},
    {"validTime":"2022-02-05T08:00:00+00:00/P1DT3H","value":0}]})"),
                           in_zone("America/New_York"));
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(rain(reading, "2022-02-04") == Approx(3.0));
  CHECK(rain(reading, "2022-02-05") == Approx(3.0));
  // Six hours of 6 February are told: not a whole day.
  CHECK(std::isnan(rain(reading, "2022-02-06")));
}

TEST_CASE("T22: equal neighbors of the temperature layer are laid out by the hour again") {
  const auto read = answer(grid(R"("temperature":{"uom":"wmoUnit:degC","values":[
    {"validTime":"2022-02-04T05:00:00+00:00/PT3H","value":7},{"validTime":"2022-02-04T08:00:00+00:00/PT1H","value":null},
    {"validTime":"2022-02-04T09:00:00+00:00/P1DT1H","value":8}]})"),
                           in_zone("America/New_York"));
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  REQUIRE(reading.hours.size() == 3 + 25);
  CHECK(reading.hours[2].air->celsius() == 7.0);
  CHECK(reading.hours[2].minute_of_day == 120);
  CHECK(reading.hours[3].minute_of_day == 240);
  CHECK(reading.hours.back().air->celsius() == 8.0);
}

TEST_CASE("T23: a grid begins before it was issued, and says when that was") {
  const auto read = answer(grid(R"("temperature":{"uom":"wmoUnit:degC","values":[
    {"validTime":"2022-02-03T21:00:00+00:00/PT12H","value":7}]})"),
                           in_zone("America/New_York"));
  REQUIRE(read.has_value());
  REQUIRE(read->issued.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(reading.hours.front().day == soilclock::make_day(2022, 2, 3));
  CHECK(*read->issued > Instant{soilclock::make_day(2022, 2, 3)} + std::chrono::hours{21});
  CHECK(high(reading, "2022-02-04") == 20.0);
  CHECK(low(reading, "2022-02-04") == 10.0);
  CHECK(std::isnan(low(reading, "2022-02-05")));
}

TEST_CASE("T23: an interval cut at the start of a layer is no extreme of a day") {
  std::string text = grid("");
  text.replace(text.find("2022-02-04T12:00:00+00:00/PT13H"), 31, "2022-02-04T13:00:00+00:00/PT12H");
  const auto cut = answer(text, in_zone("America/New_York"));
  REQUIRE(cut.has_value());
  // One of twelve and one of thirteen hours: no length is usual, and twelve are nearly a day.
  CHECK(high(cut->series.front().reading, "2022-02-05") == 21.0);
  text.replace(text.find("2022-02-04T13:00:00+00:00/PT12H"), 31, "2022-02-04T21:00:00+00:00/PT04H");
  const auto shorter = answer(text, in_zone("America/New_York"));
  REQUIRE(shorter.has_value());
  CHECK(std::isnan(high(shorter->series.front().reading, "2022-02-04")));
}

TEST_CASE("grids with an unknown unit, a broken interval or overlapping intervals are refused") {
  CHECK(has(
      refusal(
          grid(
              R"("temperature":{"uom":"wmoUnit:degR","values":[{"validTime":"2022-02-04T05:00:00+00:00/PT3H","value":7}]})"),
          in_zone("America/New_York")),
      "/properties/temperature/uom"));
  for (const char* bad : {"2022-02-04T05:00:00+00:00", "2022-02-04T05:00:00+00:00/P1M", "2022-02-04/PT1H",
                          "2022-02-04T05:00:00+00:00/PT0H", "2022-02-04T05:00:00+00:00/P900D"}) {
    CAPTURE(bad);
    CHECK(has(refusal(grid(R"("temperature":{"uom":"wmoUnit:degC","values":[{"validTime":")" +
                           std::string{bad} + R"(","value":7}]})"),
                      in_zone("America/New_York")),
              "no interval of time"));
  }
  CHECK(has(
      refusal(
          grid(
              R"("temperature":{"uom":"wmoUnit:degC","values":[{"validTime":"2022-02-04T05:00:00+00:00/PT3H","value":7},
    {"validTime":"2022-02-04T07:00:00+00:00/PT3H","value":7}]})"),
          in_zone("America/New_York")),
      "overlap"));
  // Layers an office does not run have neither unit nor values.
  CHECK(refusal(grid(R"("temperature":{"values":[]},"windSpeed":{"values":[]})"), in_zone("America/New_York"))
            .empty());
}

TEST_CASE("T27: tenths of a degree taken for degrees are recognized by their size") {
  std::string days;
  for (int day = 1; day <= 20; ++day) {
    days +=
        fmt::format(R"({}{{"DATE":"2023-07-{:02}","STATION":"USC00331783","TMAX":"  {}","TMIN":"  183"}})",
                    day == 1 ? "" : ",", day, 282 + day);
  }
  CHECK(has(refusal("[" + days + "]"), "which no station has ever had"));
  ReadingOptions tenths;
  tenths.units_in = "0.1C,0.1mm";
  const auto read = answer("[" + days + "]", tenths);
  REQUIRE(read.has_value());
  CHECK(high(read->series.front().reading, "2023-07-01") == Approx(28.3));
}

TEST_CASE("T28: values with fractions in the older service are in a unit the answer does not name") {
  const std::string text =
      R"({"metadata":{},"results":[{"date":"2013-09-03T00:00:00","datatype":"TMAX","station":"GHCND:X","attributes":",,7,1800","value":24.4}]})";
  CHECK(has(refusal(text), "the answer does not say which"));
  ReadingOptions metric;
  metric.units_in = "C,mm";
  const auto read = answer(text, metric);
  REQUIRE(read.has_value());
  CHECK(high(read->series.front().reading, "2013-09-03") == Approx(24.4));
}

TEST_CASE("T29: attributes are read by position, however many there are") {
  const auto day = [](const std::string& date, const std::string& attributes) {
    return R"({"DATE":")" + date + R"(","STATION":"S","TMAX":"20","TMAX_ATTRIBUTES":")" + attributes +
           R"(","TMIN":"10","PRCP":"0","PRCP_ATTRIBUTES":")" + attributes + "\"}";
  };
  const auto read = answer("[" + day("2023-04-01", "C") + "," + day("2023-04-02", ",,7,1800") + "," +
                           day("2023-04-03", ",I,7,1800,extra") + "," + day("2023-04-04", "") + "," +
                           day("2023-04-05", "T,,W,2400") + "]");
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(high(reading, "2023-04-01") == 20.0);
  CHECK(high(reading, "2023-04-02") == 20.0);
  CHECK(std::isnan(high(reading, "2023-04-03")));
  CHECK(high(reading, "2023-04-04") == 20.0);
  CHECK(says(reading, "2 values failed a quality check (flag I)"));
  CHECK(says(reading, "a trace of rain on 2023-04-05"));
}

TEST_CASE("T30: the missing code is the header's and is compared as a number") {
  const auto power = [](const std::string& code, const std::string& value) {
    return R"({"geometry":{"coordinates":[-83,40,250]},"properties":{"parameter":{"T2M_MAX":{"20240501":20,"20240502":)" +
           value + R"(},"T2M_MIN":{"20240501":10,"20240502":11}}},"header":{"fill_value":)" + code +
           R"(,"time_standard":"UTC"},"messages":["rain is late"],"parameters":{"T2M_MAX":{"units":"C"},"T2M_MIN":{"units":"C"}}})";
  };
  for (const auto& [code, value] : std::vector<std::pair<std::string, std::string>>{
           {"-999.0", "-999"}, {"-999", "-999.0"}, {"\"-99\"", "-99.0"}, {"\"-999.0\"", "-999"}}) {
    const auto read = answer(power(code, value));
    CAPTURE(code, value);
    REQUIRE(read.has_value());
    const ParsedFile& reading = read->series.front().reading;
    CHECK(std::isnan(high(reading, "2024-05-02")));
    CHECK(low(reading, "2024-05-02") == 11.0);
    CHECK(reading.daily.day_definition == "UTC");
    CHECK(says(reading, "rain is late"));
    CHECK_FALSE(says(reading, "is not weather"));
  }
  CHECK(has(refusal(R"({"header":{},"messages":["Please provide a valid parameter"]})"),
            "Please provide a valid parameter"));
}

TEST_CASE("T32: nulls are taken out before a unit is converted") {
  const auto read =
      answer(daily_answer(R"("temperature_2m_max":"°F","temperature_2m_min":"°F")",
                          R"("temperature_2m_max":[68,null,70],"temperature_2m_min":[50,null,51])"));
  REQUIRE(read.has_value());
  CHECK(read->series.front().reading.missing_days == 1);
  CHECK_FALSE(says(read->series.front().reading, "is not weather"));
}

TEST_CASE("T42 and T44: a minimum above its maximum is found in every service's answer") {
  const auto open_meteo = answer(
      daily_answer(extremes_units, R"("temperature_2m_max":[20,5,22],"temperature_2m_min":[10,11,12])"));
  REQUIRE(open_meteo.has_value());
  CHECK(says(open_meteo->series.front().reading,
             "2024-05-02: the minimum (11.0 C) is above the maximum (5.0 C)"));
  const auto ncei = answer(
      R"([{"DATE":"2023-04-01","STATION":"S","TMAX":"5","TMIN":"11"},{"DATE":"2023-04-02","STATION":"S","TMAX":"15","TMIN":"11"}])");
  REQUIRE(ncei.has_value());
  CHECK(ncei->series.front().reading.missing_days == 1);
  std::string text = grid("");
  text.replace(text.find("\"value\":20"), 10, "\"value\":-5");
  const auto nws = answer(text, in_zone("America/New_York"));
  REQUIRE(nws.has_value());
  CHECK(std::isnan(high(nws->series.front().reading, "2022-02-04")));
}

TEST_CASE("T45 and T46: hours of UTC have no repeated and no missing hour on days of change") {
  // Four days over the end of summer time (3 November 2024) and over its start (10 March 2024).
  for (const Day day : {soilclock::make_day(2024, 11, 2), soilclock::make_day(2024, 3, 9)}) {
    std::vector<double> air;
    air.reserve(72);
    for (int hour = 0; hour < 72; ++hour) air.push_back(hour / 2.0);
    const auto read =
        answer(hourly_answer(Instant{day} + std::chrono::hours{5}, air), in_zone("America/New_York"));
    REQUIRE(read.has_value());
    const ParsedFile& reading = read->series.front().reading;
    std::set<std::pair<Day, int>> seen;
    for (const auto& hour : reading.hours) CHECK(seen.insert({hour.day, hour.minute_of_day}).second);
    for (int i = 0; i < 3; ++i) {
      CHECK(reading.daily.air_min.at(day + soilclock::Days{i})->celsius() == 12.0 * i);
      CHECK(reading.daily.air_max.at(day + soilclock::Days{i})->celsius() == 12.0 * i + 11.5);
    }
  }
}

TEST_CASE("T47: the last hour of the local day is part of its rain") {
  // Eastern standard midnight is 05:00 UTC: the amount stamped then fell in the last hour of the day.
  std::vector<double> wet(60, 0.0);
  wet[29] = 4.0;
  const auto read =
      answer(hourly_answer(Instant{soilclock::make_day(2024, 1, 1)}, std::vector<double>(60, 3.0), wet),
             in_zone("America/New_York"));
  REQUIRE(read.has_value());
  CHECK(rain(read->series.front().reading, "2024-01-01") == 4.0);
}
