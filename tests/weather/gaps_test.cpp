// SPDX-License-Identifier: MIT
#include "weather/series/gaps.hpp"

#include <catch2/catch.hpp>

using namespace soilclock;
using namespace soilclock::weather;

namespace {

/// As models/weather/futures.json has it.
const GapOptions usual{3, 10};

/// Minima and maxima for a range, by a function of the day's number from its start.
DailyWeather years(Day from, Day to, double lift_per_day = 0.0) {
  DailyWeather weather;
  for (Day day = from; day < to; day += Days{1}) {
    const double lift = lift_per_day * static_cast<double>((day - from).count());
    weather.air_min.set(day, Temperature::from_celsius(5.0 + lift), Quality::measured);
    weather.air_max.set(day, Temperature::from_celsius(15.0 + lift), Quality::measured);
    weather.rain.set(day, Rain::from_mm(1.0), Quality::measured);
  }
  return weather;
}

void lose(DailyWeather& weather, Day from, int days) {
  for (int i = 0; i < days; ++i) {
    weather.air_min.clear(from + Days{i});
    weather.air_max.clear(from + Days{i});
    weather.rain.clear(from + Days{i});
  }
}

const Day may = make_day(2023, 5, 1);

}  // namespace

TEST_CASE("a gap of three days lies on the line between its neighbors and is marked filled") {
  DailyWeather weather = years(may, may + Days{10}, 0.5);
  lose(weather, may + Days{4}, 3);
  const FilledWeather filled = fill_gaps(weather, usual);
  for (int i = 4; i < 7; ++i) {
    CHECK(filled.weather.air_min.at(may + Days{i})->celsius() == Approx(5.0 + 0.5 * i));
    CHECK(filled.weather.air_max.quality(may + Days{i}) == Quality::filled);
  }
  CHECK(filled.filled_days == 3);
  CHECK(filled.missing_days == 0);
}

TEST_CASE("missing rain is never filled and is listed") {
  DailyWeather weather = years(may, may + Days{10});
  lose(weather, may + Days{4}, 1);
  const FilledWeather filled = fill_gaps(weather, usual);
  CHECK_FALSE(filled.weather.rain.at(may + Days{4}));
  REQUIRE(filled.gaps.size() == 3);
  CHECK(filled.gaps.back().quantity == "rain");
  CHECK(filled.gaps.back().treatment == GapTreatment::left_missing);
  CHECK((filled.gaps.back().days == DayRange{may + Days{4}, may + Days{5}}));
}

TEST_CASE("a gap of four to ten days takes the mean of earlier years only") {
  // 2021 is at 5 C, 2022 at 8 C, 2023 at 20 C, 2024 at 50 C in the minimum.
  DailyWeather weather;
  for (const auto& [year, celsius] :
       {std::pair{2021, 5.0}, std::pair{2022, 8.0}, std::pair{2023, 20.0}, std::pair{2024, 50.0}}) {
    for (Day day = make_day(year, 1, 1); day < make_day(year + 1, 1, 1); day += Days{1}) {
      weather.air_min.set(day, Temperature::from_celsius(celsius), Quality::measured);
      weather.air_max.set(day, Temperature::from_celsius(celsius + 5.0), Quality::measured);
    }
  }
  lose(weather, may, 4);
  lose(weather, make_day(2023, 8, 1), 10);
  lose(weather, make_day(2023, 10, 1), 11);
  const FilledWeather filled = fill_gaps(weather, usual);
  CHECK(filled.weather.air_min.at(may)->celsius() == Approx(6.5));
  CHECK(filled.weather.air_min.quality(may) == Quality::past_year);
  CHECK(filled.weather.air_max.at(make_day(2023, 8, 10))->celsius() == Approx(11.5));
  CHECK_FALSE(filled.weather.air_min.at(make_day(2023, 10, 5)));
  CHECK(filled.filled_days == 14);
  CHECK(filled.missing_days == 11);
}

TEST_CASE("without an earlier year a gap of five days stays missing") {
  DailyWeather weather = years(may, may + Days{400});
  lose(weather, may + Days{20}, 5);
  const FilledWeather filled = fill_gaps(weather, usual);
  CHECK(filled.missing_days == 5);
  CHECK(filled.gaps.front().treatment == GapTreatment::left_missing);
  CHECK(filled.gaps.front().days.size() == 5);
}

TEST_CASE("29 February is filled from 28 February of common years") {
  DailyWeather weather = years(make_day(2023, 1, 1), make_day(2024, 12, 31), 0.01);
  lose(weather, make_day(2024, 2, 27), 5);
  const FilledWeather filled = fill_gaps(weather, usual);
  CHECK((filled.weather.air_min.at(make_day(2024, 2, 29)) == weather.air_min.at(make_day(2023, 2, 28))));
  CHECK((filled.weather.air_min.at(make_day(2024, 3, 2)) == weather.air_min.at(make_day(2023, 3, 2))));
}

TEST_CASE("the limits are options") {
  DailyWeather weather = years(may, may + Days{10});
  lose(weather, may + Days{4}, 2);
  GapOptions none;
  none.longest_interpolated = 0;
  none.longest_past_year = 0;
  CHECK(fill_gaps(weather, none).missing_days == 2);
  CHECK(fill_gaps(weather, usual).missing_days == 0);
}

TEST_CASE("nothing is invented before the first and after the last value") {
  DailyWeather weather = years(may, may + Days{5});
  const FilledWeather filled = fill_gaps(weather, usual);
  CHECK(filled.gaps.empty());
  CHECK_FALSE(filled.weather.air_min.at(may - Days{1}));
  CHECK_FALSE(filled.weather.air_min.at(may + Days{5}));
  CHECK(fill_gaps(DailyWeather{}, usual).gaps.empty());
}

TEST_CASE("a filled minimum never ends above a measured maximum") {
  DailyWeather weather = years(may, may + Days{3});
  weather.air_min.clear(may + Days{1});
  weather.air_max.set(may + Days{1}, Temperature::from_celsius(2.0), Quality::measured);
  const FilledWeather filled = fill_gaps(weather, usual);
  CHECK_FALSE(filled.weather.air_min.at(may + Days{1}));
  CHECK(filled.weather.air_max.at(may + Days{1}));
  CHECK(filled.missing_days == 1);
}

TEST_CASE("soil gaps are bridged up to three days only") {
  DailyWeather weather = years(may, may + Days{800});
  auto& soil = weather.soil[Depth::from_cm(5.0)];
  for (int i = 0; i < 800; ++i)
    soil.set(may + Days{i}, Temperature::from_celsius(i * 0.01), Quality::measured);
  for (int i = 0; i < 3; ++i) soil.clear(may + Days{500 + i});
  for (int i = 0; i < 4; ++i) soil.clear(may + Days{600 + i});
  const FilledWeather filled = fill_gaps(weather, usual);
  const auto& after = filled.weather.soil.begin()->second;
  CHECK(after.at(may + Days{501})->celsius() == Approx(5.01));
  CHECK_FALSE(after.at(may + Days{601}));
}
