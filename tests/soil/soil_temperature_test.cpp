// SPDX-License-Identifier: MIT
#include "soil/soil_temperature.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "soil_files.hpp"

using namespace soilclock;
using namespace soilclock::soil;

namespace {

const Day new_year = make_day(2020, 1, 1);
const Place crossville{36.01, -85.13, {}};

DailySeries<Temperature> swinging_air(int days) {
  DailySeries<Temperature> air{DayRange{new_year, new_year + Days{days}}};
  for (int i = 0; i < days; ++i) {
    const double wave = std::cos(6.283185307 * (i + 1 - 200) / 365.25);
    air.set(new_year + Days{i}, Temperature::from_celsius(13.0 + 11.0 * wave), Quality::measured);
  }
  return air;
}

DailySeries<Temperature> probe(int from, int to, double celsius) {
  DailySeries<Temperature> series;
  for (int i = from; i < to; ++i) {
    series.set(new_year + Days{i}, Temperature::from_celsius(celsius), Quality::measured);
  }
  return series;
}

bool says(const SoilTemperature& soil, const std::string& code) {
  return std::any_of(soil.remarks.begin(), soil.remarks.end(),
                     [&code](const Remark& remark) { return remark.code == code; });
}

}  // namespace

TEST_CASE("without a probe the soil is estimated and its error is the prior one") {
  const auto soil =
      soil_temperature(tests::soil_files(), {crossville, Depth::from_cm(5.0), {}, {}}, swinging_air(200));
  CHECK(name(soil.origin) == "estimated");
  CHECK(soil.readings.empty());
  CHECK(soil.remarks.empty());
  CHECK(soil.model_id == "two_memories_east_5cm");
  // 18 July, day 200: 0.44 + 0.61 cos2 w + 0.13 sin2 w = 1.008; m = 1 + 0.17 cos of 138 days
  // = 0.878, m2 (0.55 + 0.46) = 0.778; sqrt(1.786) = 1.337.
  CHECK(soil.expected_error.kelvin() == Approx(1.3366).margin(0.005));
}

TEST_CASE("measured soil wins day by day and conditions the error") {
  const SoilSite site{crossville, Depth::from_cm(5.0), {}, {{Depth::from_cm(5.0), probe(150, 160, 19.0)}}};
  const auto soil = soil_temperature(tests::soil_files(), site, swinging_air(200));
  CHECK(name(soil.origin) == "mixed");
  CHECK(soil.daily.at(new_year + Days{155})->celsius() == 19.0);
  CHECK(soil.daily.quality(new_year + Days{155}) == Quality::measured);
  CHECK(soil.daily.quality(new_year + Days{160}) == Quality::modelled);
  CHECK(soil.daily.at(new_year + Days{160})->celsius() == soil.estimate.at(new_year + Days{160})->celsius());
  CHECK(soil.estimate.at(new_year + Days{155})->celsius() != 19.0);
  REQUIRE(soil.readings.size() == 10);
  CHECK(soil.readings[5].estimate_minus_reading.kelvin() ==
        Approx(soil.estimate.at(new_year + Days{155})->celsius() - 19.0));
  CHECK(soil.expected_error.kelvin() < 1.25);  // 40 days after the last reading; 1.44 without any

  const SoilSite all{crossville, Depth::from_cm(5.0), {}, {{Depth::from_cm(5.2), probe(0, 200, 19.0)}}};
  CHECK(name(soil_temperature(tests::soil_files(), all, swinging_air(200)).origin) == "measured");
}

TEST_CASE("a probe at another depth informs the error and does not pass for the asked depth") {
  const SoilSite site{crossville, Depth::from_cm(5.0), {}, {{Depth::from_cm(10.0), probe(150, 157, 19.0)}}};
  const auto soil = soil_temperature(tests::soil_files(), site, swinging_air(200));
  CHECK(name(soil.origin) == "mixed");
  REQUIRE(soil.readings.size() == 7);  // too few to learn how rough they are
  CHECK(soil.readings[0].variance_k2 == Approx(0.05 + 0.27));
}

TEST_CASE("a probe without air gives measured days and nothing invented between") {
  const SoilSite site{crossville, Depth::from_cm(5.0), {}, {{Depth::from_cm(5.0), probe(10, 12, 6.0)}}};
  const auto soil = soil_temperature(tests::soil_files(), site, {});
  CHECK(name(soil.origin) == "measured");
  CHECK(soil.daily.size() == 2);
  CHECK(soil.readings.empty());
  CHECK(says(soil, "soil-no-air"));
  CHECK_FALSE(soil.state);
}

TEST_CASE("what weakens the estimate is said") {
  const auto models = tests::soil_files();
  CHECK(says(soil_temperature(models, {crossville, Depth::from_cm(5.0), {}, {}}, swinging_air(60)),
             "soil-short-run-in"));
  CHECK(says(soil_temperature(models, {std::nullopt, Depth::from_cm(5.0), {}, {}}, swinging_air(200)),
             "latitude-unknown"));
  CHECK(
      says(soil_temperature(models, {Place{53.4, -6.2, {}}, Depth::from_cm(5.0), {}, {}}, swinging_air(200)),
           "soil-model-outside-area"));
  auto air = swinging_air(200);
  for (int i = 100; i < 115; ++i) air.clear(new_year + Days{i});
  const auto gappy = soil_temperature(models, {crossville, Depth::from_cm(5.0), {}, {}}, air);
  CHECK(says(gappy, "soil-air-gap"));
  CHECK(gappy.daily.count_missing() == 5);

  DailySeries<Temperature> frost{DayRange{new_year, new_year + Days{200}}};
  for (int i = 0; i < 200; ++i)
    frost.set(new_year + Days{i}, Temperature::from_celsius(-15.0), Quality::measured);
  CHECK(says(soil_temperature(models, {crossville, Depth::from_cm(5.0), {}, {}}, frost), "soil-cross-check"));
}

TEST_CASE("the user's offset is added to every estimate and to the futures") {
  const SoilSite plain{crossville, Depth::from_cm(5.0), {}, {}};
  SoilSite warm = plain;
  warm.offset = TemperatureDelta::from_kelvin(1.5);
  auto one = soil_temperature(tests::soil_files(), plain, swinging_air(120));
  auto two = soil_temperature(tests::soil_files(), warm, swinging_air(120));
  CHECK((*two.daily.at(new_year + Days{60}) - *one.daily.at(new_year + Days{60})).kelvin() == Approx(1.5));
  const Temperature air = Temperature::from_celsius(20.0);
  const Day next = new_year + Days{120};
  CHECK((two.estimator.step(*two.state, next, air) - one.estimator.step(*one.state, next, air)).kelvin() ==
        Approx(1.5));
}

TEST_CASE("of the spots of one day the one nearest to the depth counts, and one after the air counts too") {
  const Day day = new_year + Days{150};
  const Day after = new_year + Days{201};
  const auto spot = [](Day on, double cm, double celsius) {
    return SpotMean{on, Depth::from_cm(cm), Temperature::from_celsius(celsius), 2.0};
  };
  SoilSite site{crossville, Depth::from_cm(5.0), {}, {}};
  site.spots = {spot(day, 10.0, 30.0), spot(day, 5.0, 19.0), spot(after, 5.0, 20.0)};
  const auto soil = soil_temperature(tests::soil_files(), site, swinging_air(200));
  REQUIRE(soil.readings.size() == 2);
  CHECK(soil.readings[0].estimate_minus_reading == *soil.estimate.at(day) - Temperature::from_celsius(19.0));
  CHECK(soil.readings[0].variance_k2 == 2.0);
  CHECK(soil.readings[1].day == after);
  const Temperature last = *soil.estimate.at(new_year + Days{199});
  CHECK(soil.readings[1].estimate_minus_reading == last - Temperature::from_celsius(20.0));
}

TEST_CASE("what was known then is not moved by later readings") {
  const Day day = new_year + Days{150};
  SoilSite site{crossville, Depth::from_cm(5.0), {}, {}};
  const auto plain = soil_temperature(tests::soil_files(), site, swinging_air(200));
  site.spots = {
      {day, Depth::from_cm(5.0), *plain.estimate.at(day) + TemperatureDelta::from_kelvin(3.0), 1.0}};
  const auto soil = soil_temperature(tests::soil_files(), site, swinging_air(200));
  const DayRange around{day - Days{20}, day + Days{20}};
  const auto now = corrected(soil, Hemisphere::north, around);
  const auto then = corrected(soil, Hemisphere::north, around, MovedBy::readings_so_far);
  CHECK(then.at(day - Days{1})->celsius() == Approx(plain.estimate.at(day - Days{1})->celsius()));
  CHECK(*now.at(day - Days{1}) > *then.at(day - Days{1}) + TemperatureDelta::from_kelvin(0.5));
  CHECK(then.at(day + Days{5})->celsius() == Approx(now.at(day + Days{5})->celsius()));
}
