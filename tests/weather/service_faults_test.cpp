// SPDX-License-Identifier: MIT
// Answers with one fault each, all invented: refused with a sentence that names the fault, or read without
// it.
#include <catch2/catch.hpp>

#include "service_texts.hpp"

using namespace weather_texts;
using namespace service_texts;

namespace {

const Instant may_first{soilclock::make_day(2024, 5, 1)};

std::string good() { return daily_answer(extremes_units, extremes_columns); }

}  // namespace

TEST_CASE("the invented answer is good before anything is broken in it") {
  const auto read = answer(good());
  REQUIRE(read.has_value());
  CHECK(high(read->series.front().reading, "2024-05-03") == 22.0);
  CHECK(read->series.front().reading.outcome == Outcome::ok);
}

TEST_CASE("a cut answer is said to be cut off, with line and column") {
  const std::string text = good();
  const auto result = answer(text.substr(0, text.size() - 20));
  REQUIRE_FALSE(result.has_value());
  CHECK(has(result.error().what, "the answer is cut off"));
  CHECK(result.error().where.line == 1);
  CHECK(result.error().where.column == static_cast<int>(text.size()) - 20 + 1);
  const auto second_line = answer("{\n\"latitude\": 1,\n  \"daily\": {\"time\": [");
  REQUIRE_FALSE(second_line.has_value());
  CHECK(second_line.error().where.line == 3);
}

TEST_CASE("text behind an answer is a broken stream") {
  CHECK(has(refusal(good() + "Unexpected error while streaming data: timeout"), "the answer is cut off"));
  CHECK(refusal(good() + "\n \n").empty());
}

TEST_CASE("what is no JSON at all is named") {
  CHECK(has(refusal(""), "the answer is empty"));
  CHECK(has(refusal("<html><body>502 Bad Gateway</body></html>"), "web page"));
  CHECK(has(refusal("Service Unavailable"), "not JSON"));
  CHECK(has(refusal("null"), "not JSON"));
  CHECK(refusal("\xEF\xBB\xBF" + good()).empty());
}

TEST_CASE("empty objects and lists say that the service has no data") {
  CHECK(has(refusal("{}"), "the answer is empty"));
  CHECK(has(refusal("[]"), "empty list"));
  CHECK(has(refusal(R"({"metadata":{},"results":[]})"), "empty list"));
  CHECK(has(refusal(R"({"cod":"200","list":[]})"), "no answer of a weather service known here"));
}

TEST_CASE("objects and lists in each other's place are refused where they stand") {
  CHECK(has(refusal("{" + point_head(0, "GMT") + R"(,"daily_units":{"time":"iso8601"},"daily":[]})"),
            "/daily"));
  CHECK(has(refusal("[1,2]"), "/items/0"));
  CHECK(has(
      refusal(daily_answer(extremes_units, R"("temperature_2m_max":{"a":1},"temperature_2m_min":[1,2,3])")),
      "/daily/temperature_2m_max"));
  CHECK(has(
      refusal(
          R"({"geometry":{"coordinates":[-83,40]},"properties":{"maxTemperature":{"uom":"wmoUnit:degC","values":{}}}})"),
      "/properties/maxTemperature/values"));
}

TEST_CASE("one point may come as an object or in a list, and many keep their order and their own names") {
  const auto one = answer("[" + good() + "]");
  REQUIRE(one.has_value());
  CHECK(signature(one->series.front().reading) == signature(answer(good())->series.front().reading));
  std::string second =
      daily_answer(extremes_units, R"("temperature_2m_max":[1,2,3],"temperature_2m_min":[0,1,2])");
  second.insert(1, R"("location_id":1,)");
  const std::string both = "[" + good() + "," + second + "]";
  const auto two = answer(both);
  REQUIRE(two.has_value());
  REQUIRE(two->series.size() == 2);
  CHECK(two->series[0].location.empty());
  CHECK(two->series[1].point == 1);
  CHECK(two->series[1].location == "1");
  CHECK(high(two->series[1].reading, "2024-05-01") == 1.0);
  // As a file: the first, or the one named.
  CHECK(high(read(both), "2024-05-01") == 20.0);
  CHECK(says(read(both), "holds 2 places"));
  ReadingOptions named;
  named.station = "1";
  CHECK(high(read(both, named), "2024-05-01") == 1.0);
  named.station = "7";
  CHECK(says(read(both, named), "this place is not in the answer"));
}

TEST_CASE("a point of which every value is null is left out beside others and refused alone") {
  const std::string empty = daily_answer(
      extremes_units, R"("temperature_2m_max":[null,null,null],"temperature_2m_min":[null,null,null])");
  CHECK(has(refusal(empty), "all 3 values of 'temperature_2m_max' are null"));
  for (const std::string& both : {"[" + empty + "," + good() + "]", "[" + good() + "," + empty + "]"}) {
    const auto read = answer(both);
    REQUIRE(read.has_value());
    CHECK(read->series.size() == 1);
    CHECK(says(read->series.front().reading, "left out: point"));
  }
  CHECK(has(refusal("[" + empty + "," + empty + "]"), "no temperature"));
}

TEST_CASE("not-a-number is no JSON, numbers in quotes are no numbers, null is missing") {
  CHECK(has(
      refusal(daily_answer(extremes_units, R"("temperature_2m_max":[NaN,1,2],"temperature_2m_min":[0,0,0])")),
      "cut off"));
  CHECK(has(refusal(daily_answer(extremes_units,
                                 R"("temperature_2m_max":["20",21,22],"temperature_2m_min":[0,0,0])")),
            "/daily/temperature_2m_max/0"));
  const auto holed = answer(
      daily_answer(extremes_units, R"("temperature_2m_max":[20,null,22],"temperature_2m_min":[0,null,2])"));
  REQUIRE(holed.has_value());
  CHECK(holed->series.front().reading.missing_days == 1);
  CHECK(std::isnan(high(holed->series.front().reading, "2024-05-02")));
}

TEST_CASE("numbers beyond any weather are missing, numbers beyond any computer are refused") {
  const auto read = answer(
      daily_answer(extremes_units, R"("temperature_2m_max":[20,1e300,22],"temperature_2m_min":[1,2,3])"));
  REQUIRE(read.has_value());
  CHECK(std::isnan(high(read->series.front().reading, "2024-05-02")));
  CHECK(says(read->series.front().reading, "is not weather"));
  CHECK(has(refusal(daily_answer(extremes_units,
                                 R"("temperature_2m_max":[1e999,1,2],"temperature_2m_min":[1,2,3])")),
            "too large"));
  CHECK(has(refusal("{" + point_head(0, "GMT") + R"(,"daily_units":{"time":"unixtime",)" + extremes_units +
                    R"(},"daily":{"time":[1e300],"temperature_2m_max":[1],"temperature_2m_min":[0]}})"),
            "no number of whole seconds"));
  CHECK(has(refusal("{" + point_head(0, "GMT") + R"(,"daily_units":{"time":"unixtime",)" + extremes_units +
                    R"(},"daily":{"time":[9000000000],"temperature_2m_max":[1],"temperature_2m_min":[0]}})"),
            "outside the years"));
}

TEST_CASE("units are those of the answer, and an unknown or absent one is never guessed") {
  const auto fahrenheit = answer(daily_answer(
      R"("temperature_2m_max":"°F","temperature_2m_min":"°F","precipitation_sum":"inch")",
      R"("temperature_2m_max":[68,69.8,71.6],"temperature_2m_min":[50,51.8,53.6],"precipitation_sum":[1,0,null])"));
  REQUIRE(fahrenheit.has_value());
  CHECK(high(fahrenheit->series.front().reading, "2024-05-01") == Approx(20.0));
  CHECK(rain(fahrenheit->series.front().reading, "2024-05-01") == Approx(25.4));
  CHECK(std::isnan(rain(fahrenheit->series.front().reading, "2024-05-03")));
  CHECK(has(refusal(daily_answer(R"("temperature_2m_max":"°R","temperature_2m_min":"°C")", extremes_columns)),
            "the unit of 'temperature_2m_max' is not known here"));
  CHECK(has(refusal(daily_answer(R"("temperature_2m_max":"°C")", extremes_columns)),
            "the unit of 'temperature_2m_min' is not known here"));
  std::string without = good();
  without.replace(without.find("daily_units"), 11, "daily_unats");
  CHECK(has(refusal(without), "lacks daily_units"));
}

TEST_CASE("wind comes in any unit the service knows, and one it does not know is refused") {
  const auto wind = [](const std::string& unit) {
    return "{" + point_head(0, "GMT") +
           R"(,"hourly_units":{"time":"iso8601","temperature_2m":"°C","wind_speed_10m":")" + unit +
           R"("},"hourly":{"time":["2024-05-01T00:00"],"temperature_2m":[9],"wind_speed_10m":[10]}})";
  };
  // Exact: hour of 3600 s, mile of 1609.344 m, nautical mile of 1852 m.
  const std::vector<std::pair<std::string, double>> units{
      {"km/h", 10.0 / 3.6}, {"mp/h", 4.4704}, {"m/s", 10.0}, {"kn", 18520.0 / 3600.0}};
  for (const auto& [unit, expected] : units) {
    const auto read = answer(wind(unit));
    CAPTURE(unit);
    REQUIRE(read.has_value());
    CHECK(read->series.front().reading.hours.front().wind_m_per_s.value_or(0.0) == Approx(expected));
  }
  CHECK(has(refusal(wind("bft")), "the unit of 'wind_speed_10m' is not known here"));
}

TEST_CASE("lists of different length are refused by name") {
  CHECK(
      has(refusal(daily_answer(extremes_units, R"("temperature_2m_max":[1,2],"temperature_2m_min":[0,0,0])")),
          "'temperature_2m_max' has 2 values for 3 times"));
}

TEST_CASE("times that stand still, go back or are none are refused") {
  const auto with_times = [](const std::string& times) {
    return "{" + point_head(0, "GMT") + R"(,"daily_units":{"time":"iso8601",)" + extremes_units +
           R"(},"daily":{"time":[)" + times + R"(],"temperature_2m_max":[1,2],"temperature_2m_min":[0,0]}})";
  };
  CHECK(refusal(with_times(R"("2024-05-01","2024-05-02")")).empty());
  CHECK(has(refusal(with_times(R"("2024-05-01","2024-05-01")")), "does not follow the day before it"));
  CHECK(has(refusal(with_times(R"("2024-05-02","2024-05-01")")), "does not follow the day before it"));
  CHECK(has(refusal(with_times(R"("2024-05-01","2024-05-32")")), "time number 2"));
  CHECK(has(refusal(with_times(R"("2024-05-01","2024-05-02T00:00")")), "time number 2"));
}

TEST_CASE("deep nesting is refused and does not end the program") {
  std::string deep = R"({"latitude":)" + std::string(200000, '[') + std::string(200000, ']') + "}";
  CHECK(has(refusal(deep), "deep"));
  CHECK(has(refusal(std::string(200000, '[')), "deep"));
}

TEST_CASE("a key that stands twice is refused") {
  std::string twice = good();
  twice.insert(1, R"("elevation":1,)");
  CHECK(has(refusal(twice), "stands twice"));
}

TEST_CASE("places off the globe and offsets no clock has are refused") {
  std::string text = good();
  text.replace(text.find("39.97"), 5, "139.9");
  CHECK(has(refusal(text), "/latitude"));
  text = good();
  text.replace(text.find("-18000"), 6, "-98000");
  CHECK(has(refusal(text), "/utc_offset_seconds"));
}

TEST_CASE("spreads, anomalies and earlier runs of a variable are no models") {
  const auto read = answer(
      "{" + point_head(0, "GMT") +
      R"(,"hourly_units":{"time":"iso8601","temperature_2m":"°C","temperature_2m_spread":"°C","temperature_2m_previous_day1":"°C","precipitation_probability":"%"},
      "hourly":{"time":["2024-05-01T00:00"],"temperature_2m":[9],"temperature_2m_spread":[1],"temperature_2m_previous_day1":[8],"precipitation_probability":[40]}})");
  REQUIRE(read.has_value());
  REQUIRE(read->series.size() == 1);
  CHECK(read->series.front().model.empty());
  CHECK(read->series.front().reading.hours.front().air->celsius() == 9.0);
}

TEST_CASE("an ending nobody knows beside the plain variable is not taken for a model") {
  const auto read = answer(daily_answer(extremes_units + R"(,"temperature_2m_max_quantile90":"°C")",
                                        extremes_columns + R"(,"temperature_2m_max_quantile90":[30,31,32])"));
  REQUIRE(read.has_value());
  REQUIRE(read->series.size() == 1);
  CHECK(high(read->series.front().reading, "2024-05-01") == 20.0);
}

namespace {

/// Hours and days of one answer, 1 to 3 May; the second day lacks an hour.
std::string hours_and_days(int offset, const std::string& zone) {
  std::string times;
  std::string values;
  for (int hour = 0; hour < 48; ++hour) {
    times += (hour == 0 ? "\"" : ",\"") + hour_text(may_first + std::chrono::hours{hour}) + "\"";
    values += (hour == 0 ? "" : ",") + (hour == 30 ? std::string{"null"} : std::to_string(hour / 2));
  }
  return "{" + point_head(offset, zone) +
         R"(,"hourly_units":{"time":"iso8601","temperature_2m":"°C"},"hourly":{"time":[)" + times +
         R"(],"temperature_2m":[)" + values + R"(]},"daily_units":{"time":"iso8601",)" + extremes_units +
         R"(,"precipitation_sum":"mm"},"daily":{"time":["2024-05-01","2024-05-02","2024-05-03"],)" +
         extremes_columns + R"(,"precipitation_sum":[1,2,3]}})";
}

}  // namespace

TEST_CASE("beside hours, days of the same clock fill what the hours leave open") {
  const auto read = answer(hours_and_days(-18000, "America/New_York"));
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CAPTURE(said(reading));
  CHECK(reading.step == "daily and hourly");
  CHECK(reading.daily.day_definition == "local standard time");
  CHECK(high(reading, "2024-05-01") == 11.0);  // from the hours, not the 20 of the daily block
  CHECK(high(reading, "2024-05-02") == 21.0);
  CHECK(high(reading, "2024-05-03") == 22.0);
  CHECK(rain(reading, "2024-05-02") == 2.0);
  CHECK(reading.days_with_data == 3);
}

TEST_CASE("beside hours, days of another clock are not used, and that is said") {
  for (const auto& [offset, zone] :
       std::vector<std::pair<int, std::string>>{{-14400, "America/New_York"}, {0, "GMT"}}) {
    const auto read = answer(hours_and_days(offset, zone), in_zone("America/New_York"));
    CAPTURE(offset);
    REQUIRE(read.has_value());
    const ParsedFile& reading = read->series.front().reading;
    CHECK(says(reading, "is not used beside the hours"));
    CHECK(std::isnan(high(reading, "2024-05-03")));
    CHECK(std::isnan(rain(reading, "2024-05-02")));
    CHECK(reading.step == "hourly");
  }
}

TEST_CASE("members of several models carry the model behind the member") {
  const auto read = answer(daily_answer(
      R"("temperature_2m_max_gfs":"°C","temperature_2m_max_member01_gfs":"°C","temperature_2m_max_ecmwf_ifs025":"°C")",
      R"("temperature_2m_max_gfs":[1,1,1],"temperature_2m_max_member01_gfs":[2,2,2],"temperature_2m_max_ecmwf_ifs025":[null,null,null])"));
  REQUIRE(read.has_value());
  REQUIRE(read->series.size() == 2);
  CHECK(read->series[1].model == "gfs");
  CHECK(read->series[1].member == 1);
  CHECK(high(read->series[1].reading, "2024-05-01") == 2.0);
  CHECK(says(read->series[0].reading, "'temperature_2m_max' are null of model ecmwf_ifs025"));
}

TEST_CASE("an amount of rain stamped midnight belongs to the day before it") {
  // 49 hours from midnight of UTC, one millimeter stamped 00:00 of the second day.
  std::vector<double> wet(49, 0.0);
  wet[24] = 1.0;
  auto options = in_zone("UTC");
  const auto read = answer(hourly_answer(may_first, std::vector<double>(49, 10.0), wet), options);
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(rain(reading, "2024-05-01") == 1.0);
  CHECK(rain(reading, "2024-05-02") == 0.0);
  CHECK(reading.hours[24].rain->mm() == 1.0);
}

TEST_CASE("a day that lacks one hour has no extremes and no rain, and is said") {
  std::vector<double> air(72, 10.0);
  std::vector<double> wet(72, 0.0);
  air[30] = std::nan("");
  wet[31] = std::nan("");
  const auto read = answer(hourly_answer(may_first, air, wet), in_zone("UTC"));
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(low(reading, "2024-05-01") == 10.0);
  CHECK(std::isnan(low(reading, "2024-05-02")));
  CHECK(std::isnan(rain(reading, "2024-05-02")));
  CHECK(says(reading, "1 day lacks hours, so the hours give no extremes: 2024-05-02"));
}

TEST_CASE("without a zone the hours are cut by the longitude, and that is said") {
  const auto read = answer(hourly_answer(may_first, std::vector<double>(48, 10.0)));
  REQUIRE(read.has_value());
  const ParsedFile& reading = read->series.front().reading;
  CHECK(says(reading, "UTC-06:00"));
  CHECK(soilclock::iso(reading.hours.front().day) == "2024-04-30");
  CHECK(reading.hours.front().minute_of_day == 18 * 60);
}
