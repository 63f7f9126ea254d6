// SPDX-License-Identifier: MIT
#include "weather/series/joining.hpp"

#include <rapidcheck/catch.h>

#include <algorithm>
#include <catch2/catch.hpp>

using namespace soilclock;
using namespace soilclock::weather;

namespace {

const Day start = make_day(2024, 10, 1);

DailyWeather constant(Day from, int days, double low) {
  DailyWeather weather;
  for (int i = 0; i < days; ++i) {
    weather.air_min.set(from + Days{i}, Temperature::from_celsius(low), Quality::measured);
    weather.air_max.set(from + Days{i}, Temperature::from_celsius(low + 10.0), Quality::measured);
    weather.rain.set(from + Days{i}, Rain::from_mm(0.0), Quality::measured);
  }
  return weather;
}

bool has_remark(const JoinedWeather& joined, const std::string& code) {
  return std::any_of(joined.remarks.begin(), joined.remarks.end(),
                     [&](const Remark& remark) { return remark.code == code; });
}

/// The text of the only remark with a code; empty when there is none or more than one.
std::string only(const JoinedWeather& joined, const std::string& code) {
  std::string text;
  for (const Remark& remark : joined.remarks) {
    if (remark.code != code) continue;
    if (!text.empty()) return {};
    text = remark.text;
  }
  return text;
}

/// One day with the extremes that are given.
DailyWeather one_day(Day day, std::optional<double> low, std::optional<double> high) {
  DailyWeather weather;
  if (low) weather.air_min.set(day, Temperature::from_celsius(*low), Quality::measured);
  if (high) weather.air_max.set(day, Temperature::from_celsius(*high), Quality::measured);
  return weather;
}

}  // namespace

TEST_CASE("a station wins over a forecast and the forecast counts after the last measured day") {
  const auto joined = join_weather({{"forecast.csv", constant(start - Days{5}, 20, 1.0), true},
                                    {"station.csv", constant(start, 10, 5.0), false}});
  CHECK((joined.last_measured == start + Days{9}));
  CHECK((joined.last_forecast == start + Days{14}));
  CHECK(joined.weather.air_min.at(start + Days{9})->celsius() == 5.0);
  CHECK(joined.weather.air_min.quality(start + Days{10}) == Quality::forecast);
  CHECK(joined.weather.air_min.at(start + Days{10})->celsius() == 1.0);
  CHECK_FALSE(joined.weather.air_min.at(start - Days{1}));
}

TEST_CASE("a hole inside the measured days is not filled by an old forecast") {
  DailyWeather station = constant(start, 10, 5.0);
  station.air_min.clear(start + Days{4});
  const auto joined = join_weather({{"s", station, false}, {"f", constant(start, 20, 1.0), true}});
  CHECK_FALSE(joined.weather.air_min.at(start + Days{4}));
}

TEST_CASE("of two stations the first named wins and the days that differ are counted") {
  const auto joined = join_weather(
      {{"a.csv", constant(start, 10, 5.0), false}, {"b.csv", constant(start + Days{7}, 10, 6.0), false}});
  CHECK(joined.weather.air_min.at(start + Days{8})->celsius() == 5.0);
  CHECK(joined.weather.air_min.at(start + Days{12})->celsius() == 6.0);
  REQUIRE(has_remark(joined, "stations-differ"));
  CHECK(joined.remarks.front().text.find("b.csv differs from the files named before it on 3 days") !=
        std::string::npos);
}

TEST_CASE("stations that agree are joined without a remark") {
  CHECK(
      join_weather({{"a", constant(start, 10, 5.0), false}, {"b", constant(start + Days{5}, 10, 5.0), false}})
          .remarks.empty());
}

TEST_CASE("nothing measured on or after the day is kept, forecasts stay") {
  const auto joined = join_weather(
      {{"s", constant(start, 10, 5.0), false}, {"f", constant(start, 20, 1.0), true}}, start + Days{6});
  CHECK(joined.ignored_days == 4);
  CHECK((joined.last_measured == start + Days{5}));
  CHECK(joined.weather.air_min.at(start + Days{6})->celsius() == 1.0);
  CHECK(joined.weather.air_min.quality(start + Days{6}) == Quality::forecast);
  CHECK(has_remark(joined, "later-rows-ignored"));
}

TEST_CASE("cutting shortens the series and leaves forecasts alone") {
  DailyWeather weather = constant(start, 10, 5.0);
  weather.air_min.set(start + Days{8}, Temperature::from_celsius(1.0), Quality::forecast);
  CHECK(cut_before(weather, start + Days{5}) == 5);
  CHECK((weather.air_max.last() == start + Days{4}));
  CHECK(weather.air_min.at(start + Days{8})->celsius() == 1.0);
  CHECK(cut_before(weather, start + Days{5}) == 0);
  CHECK(cut_before(weather, start - Days{5}) == 5);
  CHECK(weather.air_max.empty());
}

TEST_CASE("days said to be cut by different clocks are remarked") {
  DailyWeather utc = constant(start + Days{10}, 5, 5.0);
  utc.day_definition = "UTC";
  DailyWeather standard = constant(start, 10, 5.0);
  CHECK_FALSE(
      has_remark(join_weather({{"a", standard, false}, {"b", utc, false}}), "day-definitions-differ"));
  standard.day_definition = "local standard time";
  CHECK(has_remark(join_weather({{"a", standard, false}, {"b", utc, false}}), "day-definitions-differ"));
}

TEST_CASE("the mean of a day has the weaker quality of its extremes") {
  DailyWeather weather = constant(start, 3, 5.0);
  weather.air_max.set(start + Days{1}, Temperature::from_celsius(25.0), Quality::filled);
  weather.air_min.clear(start + Days{2});
  const auto mean = air_mean(weather);
  CHECK(mean.at(start)->celsius() == 10.0);
  CHECK(mean.quality(start + Days{1}) == Quality::filled);
  CHECK_FALSE(mean.at(start + Days{2}));
  CHECK((covered(weather) == DayRange{start, start + Days{3}}));
  CHECK(covered(DailyWeather{}).empty());
  CHECK(air_mean(DailyWeather{}).empty());
}

TEST_CASE("extremes of two sources that are reversed are both taken from the source that knows both") {
  DailyWeather own = constant(start, 3, 5.0);
  own.air_min.set(start + Days{1}, Temperature::from_celsius(20.0), Quality::measured);
  own.air_max.clear(start + Days{1});
  const auto joined =
      join_weather({{"own.csv", own}, {"history", constant(start, 3, 10.0), false, false, "grid"}});
  CHECK(joined.weather.air_min.at(start)->celsius() == 5.0);
  CHECK(joined.weather.air_min.at(start + Days{1})->celsius() == 20.0);
  CHECK(joined.weather.air_max.at(start + Days{1})->celsius() == 20.0);
  CHECK_FALSE(has_remark(joined, "extremes-reversed"));
  own.air_min.set(start + Days{1}, Temperature::from_celsius(20.1), Quality::measured);
  const auto reversed =
      join_weather({{"own.csv", own}, {"history", constant(start, 3, 10.0), false, false, "grid"}});
  CHECK(reversed.weather.air_min.at(start + Days{1})->celsius() == 10.0);
  CHECK(only(reversed, "extremes-reversed") ==
        "On 1 day own.csv and history together would put the minimum above the maximum; both extremes are "
        "taken from history.");
}

TEST_CASE("where no source knows both, the less trusted of two reversed extremes is left out") {
  const auto joined =
      join_weather({{"a.csv", one_day(start, 20.0, {})}, {"b.csv", one_day(start, {}, 15.0)}});
  CHECK(joined.weather.air_min.at(start)->celsius() == 20.0);
  CHECK_FALSE(joined.weather.air_max.at(start));
  CHECK_FALSE(joined.last_measured);
  CHECK(only(joined, "extremes-reversed") ==
        "On 1 day a.csv and b.csv together would put the minimum above the maximum; only the value of a.csv "
        "is used.");
}

TEST_CASE("days reversed between two sources are counted in one remark and are no days that differ") {
  DailyWeather own;
  for (int i = 0; i < 3; ++i)
    own.air_max.set(start + Days{i}, Temperature::from_celsius(5.0), Quality::measured);
  DailyWeather other = constant(start, 3, 10.0);
  other.air_max.clear(start + Days{2});
  const auto joined = join_weather({{"own.csv", own}, {"other.csv", other}});
  CHECK(
      only(joined, "extremes-reversed") ==
      "On 3 days own.csv and other.csv together would put the minimum above the maximum; on 2 both extremes "
      "are taken from other.csv, on 1 only the value of own.csv is used.");
  CHECK_FALSE(has_remark(joined, "stations-differ"));
}

TEST_CASE("a lone extreme of the last measured day gives way to a forecast it does not fit to") {
  DailyWeather own = constant(start, 3, 5.0);
  own.air_min.set(start + Days{3}, Temperature::from_celsius(20.0), Quality::measured);
  const auto joined = join_weather({{"own.csv", own}, {"forecast.csv", constant(start, 6, 5.0), true}});
  CHECK((joined.last_measured == start + Days{2}));
  CHECK(joined.weather.air_min.at(start + Days{3})->celsius() == 5.0);
  CHECK(joined.weather.air_min.quality(start + Days{3}) == Quality::forecast);
  CHECK(only(joined, "extremes-reversed").find("own.csv and forecast.csv") != std::string::npos);
}

TEST_CASE("laws of joining", "[law]") {
  rc::prop("no joined day is reversed, and every joined extreme is a value of one of the parts", [] {
    std::vector<WeatherPart> parts;
    const int count = *rc::gen::inRange(1, 5);
    for (int p = 0; p < count; ++p) {
      WeatherPart part{"part", {}};
      part.forecast = *rc::gen::inRange(0, 4) == 0;
      if (*rc::gen::arbitrary<bool>()) part.service = "grid";
      for (int i = 0; i < 6; ++i) {
        const double low = *rc::gen::inRange(0, 30);
        const double high = low + *rc::gen::inRange(0, 10);
        const int known = *rc::gen::inRange(0, 4);
        if ((known & 1) != 0)
          part.weather.air_min.set(start + Days{i}, Temperature::from_celsius(low), Quality::measured);
        if ((known & 2) != 0)
          part.weather.air_max.set(start + Days{i}, Temperature::from_celsius(high), Quality::measured);
      }
      parts.push_back(std::move(part));
    }
    const auto joined = join_weather(parts);
    for (Day day = start; day < start + Days{6}; day += Days{1}) {
      const auto low = joined.weather.air_min.at(day);
      const auto high = joined.weather.air_max.at(day);
      if (low && high) RC_ASSERT(*low <= *high);
      const auto from = [&](auto extreme, Temperature value) {
        return std::any_of(parts.begin(), parts.end(),
                           [&](const WeatherPart& part) { return (part.weather.*extreme).at(day) == value; });
      };
      if (low) RC_ASSERT(from(&DailyWeather::air_min, *low));
      if (high) RC_ASSERT(from(&DailyWeather::air_max, *high));
    }
  });
}
