// SPDX-License-Identifier: MIT
#include "weather/joining.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

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

bool has(const JoinedWeather& joined, const std::string& code) {
  return std::any_of(joined.remarks.begin(), joined.remarks.end(),
                     [&](const Remark& remark) { return remark.code == code; });
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
  REQUIRE(has(joined, "stations-differ"));
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
  CHECK(has(joined, "later-rows-ignored"));
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
  CHECK_FALSE(has(join_weather({{"a", standard, false}, {"b", utc, false}}), "day-definitions-differ"));
  standard.day_definition = "local standard time";
  CHECK(has(join_weather({{"a", standard, false}, {"b", utc, false}}), "day-definitions-differ"));
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
