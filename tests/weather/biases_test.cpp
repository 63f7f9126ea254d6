// SPDX-License-Identifier: MIT
#include "weather/series/biases.hpp"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>

#include <cmath>

using namespace soilclock;
using namespace soilclock::weather;

namespace {

const Day first = make_day(2026, 6, 1);

/// Days of one part: minimum 10 + i % 7 and maximum 20 + i % 5, moved by the offsets.
WeatherPart part(const std::string& name, int begin, int end, double low_off = 0.0, double high_off = 0.0) {
  WeatherPart result{name, {}, false, false, {}};
  for (int i = begin; i < end; ++i) {
    const Day day = first + Days{i};
    result.weather.air_min.set(day, Temperature::from_celsius(10.0 + i % 7 + low_off), Quality::measured);
    result.weather.air_max.set(day, Temperature::from_celsius(20.0 + i % 5 + high_off), Quality::measured);
    result.weather.rain.set(day, Rain::from_mm(1.0), Quality::measured);
  }
  return result;
}

const Day after_all = first + Days{1000};

WeatherPart service(WeatherPart from, bool remove, bool forecast = false) {
  from.service = from.name;
  from.remove_bias = remove;
  from.forecast = forecast;
  return from;
}

}  // namespace

TEST_CASE("the bias of a service is told over the days it shares with the station") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 60),
                                 service(part("history", 20, 90, 1.5, -0.5), false)};
  const auto found = compare_sources(parts, after_all);
  REQUIRE(found.size() == 1);
  CHECK(found[0].common_days == 40);
  CHECK(found[0].minimum.kelvin() == Approx(1.5));
  CHECK(found[0].maximum.kelvin() == Approx(-0.5));
  CHECK(!found[0].removed);
  CHECK(parts[1].weather.air_min.at(first + Days{70})->celsius() == Approx(10.0 + 70 % 7 + 1.5));
  CHECK(remark_of(found[0], false)->code == "bias");
  CHECK(remark_of(found[0], false)->text ==
        "Over 40 common days history is 1.5 C warmer in the minimum and 0.5 C colder in the maximum than the "
        "weather named before it; it is used as it is.");
}

TEST_CASE("a bias is taken out of the past and the coming days of its source, and out of nothing else") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 60), service(part("forecast", 20, 60, 2.0, 1.0), true),
                                 service(part("forecast", 60, 70, 2.0, 1.0), true, true),
                                 service(part("history", 0, 60, 3.0, 3.0), false)};
  const auto found = compare_sources(parts, after_all);
  REQUIRE(found.size() == 2);
  CHECK(found[0].removed);
  CHECK(parts[2].weather.air_min.at(first + Days{65})->celsius() == Approx(10.0 + 65 % 7));
  CHECK(parts[2].weather.air_max.at(first + Days{65})->celsius() == Approx(20.0));
  CHECK(parts[2].weather.rain.at(first + Days{65})->mm() == 1.0);
  CHECK(parts[3].weather.air_min.at(first)->celsius() == Approx(13.0));
  CHECK(parts[0].weather.air_min.at(first)->celsius() == Approx(10.0));
  const auto joined = join_weather(parts);
  CHECK(joined.weather.air_max.at(first + Days{65})->celsius() == Approx(20.0));
}

TEST_CASE("too few common days tell nothing, and nothing is taken out") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 29), service(part("history", 0, 90, 4.0, 4.0), true)};
  const auto found = compare_sources(parts, after_all);
  REQUIRE(found.size() == 1);
  CHECK(found[0].asked);
  CHECK(!found[0].removed);
  CHECK(parts[1].weather.air_min.at(first)->celsius() == Approx(14.0));
  CHECK(remark_of(found[0], false)->code == "source-not-compared");
}

TEST_CASE("only the latest year of common days counts") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 800), service(part("history", 0, 800), false)};
  for (int i = 0; i < 400; ++i) {
    const Day day = first + Days{i};
    parts[1].weather.air_min.set(day, Temperature::from_celsius(-30.0), Quality::modelled);
  }
  const auto found = compare_sources(parts, after_all);
  CHECK(found[0].common_days == most_common_days);
  CHECK(found[0].minimum.kelvin() == Approx(0.0));
  CHECK(!remark_of(found[0], false));  // nothing worth a word
}

TEST_CASE("where a service takes part the seams are named, and no day of it counts as differing") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 40), service(part("history", 0, 60, 1.0, 1.0), false),
                                 service(part("forecast", 60, 64), false, true)};
  const auto joined = join_weather(parts);
  REQUIRE(joined.remarks.size() == 1);
  CHECK(joined.remarks[0].code == "joined-from");
  CHECK(joined.remarks[0].text ==
        "The weather is joined from course.csv (40 days, the last on 2026-07-10), then history (20 days, the "
        "last "
        "on 2026-07-30), then forecast, to come (4 days, the last on 2026-08-03).");
  CHECK(joined.weather.air_min.at(first)->celsius() == Approx(10.0));
  CHECK(*joined.last_measured == first + Days{59});
  CHECK(*joined.last_forecast == first + Days{63});
}

TEST_CASE("a correction chains: what was compared with a moved source is moved as far") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 60), service(part("history", 0, 100, 2.0, 2.0), true),
                                 service(part("forecast", 65, 100, 2.0, 2.0), true),
                                 service(part("forecast", 100, 110, 2.0, 2.0), true, true)};
  const auto found = compare_sources(parts, after_all);
  REQUIRE(found.size() == 2);
  CHECK(found[1].common_days == 35);
  CHECK(found[1].minimum.kelvin() == Approx(2.0));
  CHECK(found[1].removed);
  const auto joined = join_weather(parts);
  for (int i = 55; i < 110; ++i) {
    INFO("day " << i);
    CHECK(joined.weather.air_min.at(first + Days{i})->celsius() == Approx(10.0 + i % 7));
    CHECK(joined.weather.air_max.at(first + Days{i})->celsius() == Approx(20.0 + i % 5));
  }
}

TEST_CASE("a source that meets the own file and a moved source is compared with both as one") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 60), service(part("history", 0, 100, 2.0, 1.0), true),
                                 service(part("forecast", 40, 100, 3.0, -1.0), true)};
  const auto found = compare_sources(parts, after_all);
  REQUIRE(found.size() == 2);
  CHECK(found[1].common_days == 60);
  CHECK(found[1].minimum.kelvin() == Approx(3.0));
  CHECK(found[1].maximum.kelvin() == Approx(-1.0));
}

TEST_CASE("days of a source that stays off its own way do not dilute the comparison with the own file") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 60), service(part("grid", 0, 80, 2.0, 2.0), false),
                                 service(part("forecast", 20, 80, 3.0, 3.0), true)};
  const auto found = compare_sources(parts, after_all);
  REQUIRE(found.size() == 2);
  CHECK(found[1].common_days == 40);
  CHECK(found[1].minimum.kelvin() == Approx(3.0));
}

TEST_CASE("where the own file shares too few days with both, the forecast follows the history") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 20), service(part("history", 0, 100, 2.0, 2.0), true),
                                 service(part("forecast", 0, 100, 3.0, 3.0), true),
                                 service(part("forecast", 100, 110, 3.0, 3.0), true, true)};
  const auto found = compare_sources(parts, after_all);
  REQUIRE(found.size() == 2);
  CHECK(!found[0].removed);
  CHECK(found[1].common_days == 100);
  CHECK(found[1].minimum.kelvin() == Approx(1.0));
  CHECK(parts[3].weather.air_min.at(first + Days{105})->celsius() == Approx(10.0 + 105 % 7 + 2.0));
}

TEST_CASE("yearly files of the own station are one reference, and the latest of them counts") {
  std::vector<WeatherPart> parts{part("2024.csv", 0, 20), part("2025.csv", 20, 40),
                                 service(part("history", 0, 60, 1.0, 1.0), false)};
  const auto found = compare_sources(parts, after_all);
  REQUIRE(found.size() == 1);
  CHECK(found[0].common_days == 40);
  CHECK(found[0].minimum.kelvin() == Approx(1.0));
}

TEST_CASE("a day too narrow for what is taken out keeps its range and moves by its mean") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 60), service(part("forecast", 0, 60, -3.0, 3.0), true),
                                 service(part("forecast", 60, 61, -3.0, 3.0), true, true)};
  DailyWeather& coming = parts[2].weather;
  coming.air_min.set(first + Days{60}, Temperature::from_celsius(12.0), Quality::forecast);
  coming.air_max.set(first + Days{60}, Temperature::from_celsius(14.0), Quality::forecast);
  compare_sources(parts, after_all);
  CHECK(coming.air_min.at(first + Days{60})->celsius() == Approx(12.0));
  CHECK(coming.air_max.at(first + Days{60})->celsius() == Approx(14.0));
}

TEST_CASE("laws of biases", "[law]") {
  rc::prop("however far off the sources lie, all that is moved ends at the level of the own file", [] {
    const auto off = [] { return *rc::gen::inRange(-50, 51) / 10.0; };
    const int own_end = *rc::gen::inRange(30, 100);
    const int past_begin = *rc::gen::inRange(0, 71);
    const double low = off();
    const double high = off();
    const double low_to_come = off();
    const double high_to_come = off();
    std::vector<WeatherPart> parts{
        part("course.csv", 0, own_end), service(part("history", 0, 100, low, high), true),
        service(part("forecast", past_begin, 100, low_to_come, high_to_come), true),
        service(part("forecast", 100, 110, low_to_come, high_to_come), true, true)};
    compare_sources(parts, after_all);
    const auto joined = join_weather(parts);
    for (int i = 0; i < 110; ++i) {
      const auto minimum = joined.weather.air_min.at(first + Days{i});
      const auto maximum = joined.weather.air_max.at(first + Days{i});
      RC_ASSERT(minimum && maximum);
      RC_ASSERT(std::abs(minimum->celsius() - (10.0 + i % 7)) < 1e-9);
      RC_ASSERT(std::abs(maximum->celsius() - (20.0 + i % 5)) < 1e-9);
    }
  });
}

TEST_CASE("what is measured on or after the day of the answer does not move a bias") {
  const auto bias_on = [](int day, int own_end) {
    std::vector<WeatherPart> parts{part("course.csv", 0, own_end),
                                   service(part("history", 0, 90, 1.0, 1.0), true)};
    for (int i = 50; i < own_end; ++i)  // from then on the station reads wrong
      parts[0].weather.air_min.set(first + Days{i}, Temperature::from_celsius(0.0), Quality::measured);
    return compare_sources(parts, first + Days{day}).at(0);
  };
  CHECK(bias_on(50, 90).minimum.kelvin() == Approx(1.0));
  CHECK(bias_on(50, 90).common_days == 50);
  CHECK(bias_on(90, 90).minimum.kelvin() > 2.0);
}

TEST_CASE("history and forecast of one service are moved alike, so that no step comes where they meet") {
  // The service is further off in the latest weeks than over the year; its own numbers go on without a step.
  std::vector<WeatherPart> parts{part("course.csv", 0, 300), service(part("history", 0, 310), true),
                                 service(part("forecast", 270, 310), true),
                                 service(part("forecast", 310, 320), true, true)};
  for (std::size_t i = 1; i < parts.size(); ++i) {
    parts[i].service = "grid";
    for (int day = 0; day < 320; ++day) {
      const auto low = parts[i].weather.air_min.at(first + Days{day});
      if (low)
        parts[i].weather.air_min.set(first + Days{day},
                                     *low + TemperatureDelta::from_kelvin(day < 200 ? 1.0 : 3.0),
                                     Quality::modelled);
    }
  }
  const auto found = compare_sources(parts, after_all);
  const auto in_history = parts[1].weather.air_min.at(first + Days{305});
  const auto in_forecast = parts[3].weather.air_min.at(first + Days{312});  // the same day of the week
  CHECK((*in_history - *in_forecast).kelvin() == Approx(0.0).margin(1e-9));
  CHECK(found.at(0).minimum.kelvin() == Approx(5.0 / 3.0));
  CHECK(!remark_of({"forecast", 45, {}, {}, true, true}, false));
}

TEST_CASE("a wish to take a bias out that nothing can fulfill is told") {
  std::vector<WeatherPart> parts{part("course.csv", 0, 60), service(part("history", 100, 160), true)};
  const auto found = compare_sources(parts, after_all);
  REQUIRE(found.size() == 1);
  CHECK(remark_of(found[0], false)->code == "source-not-compared");
  CHECK(!found[0].removed);
}

TEST_CASE("a bias is told in the units of the answer") {
  const Bias bias{"history", 40,   TemperatureDelta::from_kelvin(1.5), TemperatureDelta::from_kelvin(-0.5),
                  false,     false};
  CHECK(remark_of(bias, true)->text.find("2.7 F warmer in the minimum and 0.9 F colder") !=
        std::string::npos);
}
