// SPDX-License-Identifier: MIT
#include "treatment/spray_day.hpp"

#include <rapidcheck/catch.h>

#include <algorithm>

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;
using weather::DailyWeather;
using weather::HourlyObservation;

namespace {

const SpraySite nashville{{36.16, -86.78, {}}, -6.0, false, false};
const Day october = make_day(2025, 10, 13);

const SprayRules& shipped_rules() {
  static const SprayRules rules = taken(read_spray_rules(model_text("spray_day.json"), "spray_day.json"));
  return rules;
}

DailyWeather mild_days(Day from, int days, double low = 8.0, double high = 21.0) {
  DailyWeather daily;
  for (int i = 0; i < days; ++i) {
    daily.air_min.set(from + Days{i}, Temperature::from_celsius(low), Quality::forecast);
    daily.air_max.set(from + Days{i}, Temperature::from_celsius(high), Quality::forecast);
    daily.rain.set(from + Days{i}, Rain::from_mm(0.0), Quality::forecast);
  }
  return daily;
}

std::vector<HourlyObservation> good_hours(Day from, int days) {
  std::vector<HourlyObservation> hours;
  for (int hour = 0; hour < 24 * days; ++hour) {
    hours.push_back({from + Days{hour / 24}, hour % 24 * 60, Temperature::from_celsius(18.0), 55.0, 2.5,
                     Rain::from_mm(0.0)});
  }
  return hours;
}

DayFitness judged(SprayJob job, const std::vector<HourlyObservation>& hours, const DailyWeather& daily,
                  const SpraySite& site = nashville) {
  return judge_days(october, 1, job, hours, daily, site, shipped_rules()).days.front();
}

bool has(const DayFitness& day, SprayGate gate, bool stops) {
  return std::any_of(day.findings.begin(), day.findings.end(), [&](const SprayFinding& finding) {
    return finding.gate == gate && finding.stops == stops;
  });
}

}  // namespace

TEST_CASE("the wind of a day is the mean of its usable hours, else of its daylight") {
  auto hours = good_hours(october, 2);
  // A gale from noon on: the morning is usable, and its wind is the day's.
  for (HourlyObservation& hour : hours) {
    if (hour.minute_of_day >= 12 * 60) hour.wind_m_per_s = 9.0;
  }
  const DayFitness morning = judged(SprayJob::foliar, hours, mild_days(october - Days{5}, 12));
  REQUIRE(morning.fit);
  CHECK(*morning.wind_m_s == Approx(2.5));
  for (HourlyObservation& hour : hours) hour.wind_m_per_s = hour.minute_of_day < 12 * 60 ? 7.0 : 9.0;
  const DayFitness gale = judged(SprayJob::foliar, hours, mild_days(october - Days{5}, 12));
  CHECK(!gale.fit);
  CHECK(*gale.wind_m_s > 7.5);
  CHECK(*gale.wind_m_s < 8.5);
  for (HourlyObservation& hour : hours) hour.wind_m_per_s.reset();
  CHECK(!judged(SprayJob::foliar, hours, mild_days(october - Days{5}, 12)).wind_m_s);
  CHECK(!judged(SprayJob::foliar, {}, mild_days(october - Days{5}, 12)).wind_m_s);
}

TEST_CASE("a calm, mild, dry day is fit from an hour after sunrise to an hour and a half before sunset") {
  const DayFitness day = judged(SprayJob::foliar, good_hours(october, 2), mild_days(october - Days{5}, 12));
  CHECK(day.from_hours);
  CHECK(day.fit);
  REQUIRE(day.best_from_h);
  CHECK(*day.best_from_h == Approx(6.9).margin(0.3));  // sunrise about 5:55 standard time
  CHECK(*day.best_to_h == Approx(15.7).margin(0.3));   // sunset about 17:10
  CHECK(day.usable_hours == Approx(*day.best_to_h - *day.best_from_h));
  CHECK(has(day, SprayGate::inversion, true));
}

TEST_CASE("wind above ten miles an hour takes hours away and runs under four hours do not count") {
  std::vector<HourlyObservation> hours = good_hours(october, 2);
  for (int hour = 10; hour < 24; ++hour) hours[static_cast<std::size_t>(hour)].wind_m_per_s = 6.0;
  const DayFitness day = judged(SprayJob::foliar, hours, mild_days(october - Days{5}, 12));
  CHECK(!day.fit);
  CHECK(day.usable_hours == 0.0);
  CHECK(has(day, SprayGate::wind_high, true));
}

TEST_CASE("a night of wind breaks the inversion and opens the whole daylight") {
  std::vector<HourlyObservation> hours = good_hours(october, 2);
  for (HourlyObservation& reading : hours) reading.wind_m_per_s = 4.0;
  const DayFitness day = judged(SprayJob::foliar, hours, mild_days(october - Days{5}, 12));
  CHECK(day.usable_hours > 11.0);
  CHECK(!has(day, SprayGate::inversion, true));
}

TEST_CASE("rain at two in the afternoon ends a foliar day four hours before and a residual day at the rain") {
  std::vector<HourlyObservation> hours = good_hours(october, 2);
  hours[15].rain = Rain::from_mm(3.0);  // fell between 14 and 15 h
  const DayFitness foliar = judged(SprayJob::foliar, hours, mild_days(october - Days{5}, 12));
  CHECK(!foliar.fit);  // from about 7 to 10 h only
  CHECK(has(foliar, SprayGate::rain_soon, true));
  const DayFitness residual = judged(SprayJob::residual, hours, mild_days(october - Days{5}, 12));
  CHECK(residual.fit);
  CHECK(*residual.best_to_h == Approx(14.0));
}

TEST_CASE("dry air bars hours above a delta-T of ten and warns above eight") {
  std::vector<HourlyObservation> hours = good_hours(october, 2);
  for (HourlyObservation& reading : hours) {
    reading.air = Temperature::from_celsius(20.0);
    reading.humidity_percent = 30.0;  // delta-T 9.18
  }
  const DayFitness warned = judged(SprayJob::foliar, hours, mild_days(october - Days{5}, 12));
  CHECK(warned.fit);
  CHECK(has(warned, SprayGate::drops_fast, false));
  for (HourlyObservation& reading : hours) {
    reading.air = Temperature::from_celsius(30.0);  // delta-T 11.63
  }
  CHECK(!judged(SprayJob::foliar, hours, mild_days(october - Days{5}, 12)).fit);
}

TEST_CASE("damp air bars October hours but not a whole winter") {
  std::vector<HourlyObservation> damp = good_hours(october, 2);
  for (HourlyObservation& reading : damp) {
    reading.air = Temperature::from_celsius(15.0);
    reading.humidity_percent = 95.0;
  }
  CHECK(!judged(SprayJob::foliar, damp, mild_days(october - Days{5}, 12)).fit);
  const Day january = make_day(2026, 1, 12);
  for (HourlyObservation& reading : damp) reading.day += january - october;
  const auto week = judge_days(january, 1, SprayJob::foliar, damp, mild_days(january - Days{5}, 12),
                               nashville, shipped_rules());
  CHECK(week.days.front().fit);
  CHECK(has(week.days.front(), SprayGate::drops_slow, false));
  REQUIRE(week.days.front().best_from_h);
  CHECK(*week.days.front().best_from_h < 9.0);
}

TEST_CASE("a cold day stops foliar work, is a caution in between and does not matter for a residual") {
  const auto on = [&](SprayJob job, double high) {
    return judged(job, good_hours(october, 2), mild_days(october - Days{5}, 12, 5.0, high));
  };
  CHECK(!on(SprayJob::foliar, 9.0).fit);
  CHECK(on(SprayJob::foliar, 12.0).fit);
  CHECK(has(on(SprayJob::foliar, 12.0), SprayGate::cold, false));
  CHECK(!on(SprayJob::dormant_season, 12.0).fit);
  CHECK(on(SprayJob::residual, 9.0).fit);
}

TEST_CASE("frozen and saturated ground stop everything") {
  const auto frozen =
      judged(SprayJob::residual, good_hours(october, 2), mild_days(october - Days{5}, 12, -8.0, 3.0));
  CHECK(has(frozen, SprayGate::frozen, true));
  CHECK(!frozen.fit);
  DailyWeather soaked = mild_days(october - Days{5}, 12);
  soaked.rain.set(october - Days{2}, Rain::from_mm(50.0), Quality::measured);
  CHECK(!judged(SprayJob::residual, good_hours(october, 2), soaked).fit);
}

TEST_CASE("a residual without water in sight is a caution unless the turf is irrigated or rain is due") {
  DailyWeather daily = mild_days(october - Days{5}, 12);
  CHECK(has(judged(SprayJob::residual, good_hours(october, 2), daily), SprayGate::no_water, false));
  SpraySite irrigated = nashville;
  irrigated.irrigated = true;
  CHECK(
      !has(judged(SprayJob::residual, good_hours(october, 2), daily, irrigated), SprayGate::no_water, false));
  daily.rain.set(october + Days{2}, Rain::from_mm(10.0), Quality::forecast);
  CHECK(!has(judged(SprayJob::residual, good_hours(october, 2), daily), SprayGate::no_water, false));
}

TEST_CASE("more than an inch of rain ahead stops a slope to a green and is a caution elsewhere") {
  DailyWeather daily = mild_days(october - Days{5}, 12);
  daily.rain.set(october + Days{1}, Rain::from_mm(30.0), Quality::forecast);
  CHECK(judged(SprayJob::residual, good_hours(october, 2), daily).fit);
  SpraySite slope = nashville;
  slope.slope_to_green = true;
  CHECK(!judged(SprayJob::residual, good_hours(october, 2), daily, slope).fit);
}

TEST_CASE("frost within two nights is a caution for foliar work") {
  DailyWeather daily = mild_days(october - Days{5}, 12);
  daily.air_min.set(october + Days{2}, Temperature::from_celsius(-1.0), Quality::forecast);
  const DayFitness day = judged(SprayJob::foliar, good_hours(october, 2), daily);
  CHECK(has(day, SprayGate::frost_ahead, false));
  CHECK(day.fit);
}

TEST_CASE("without hours the day is judged by daily values and the loss is said") {
  const WeekFitness week = judge_days(october, 7, SprayJob::foliar, {}, mild_days(october - Days{5}, 20),
                                      nashville, shipped_rules());
  CHECK(week.fit_days == 7);
  CHECK(!week.days.front().from_hours);
  REQUIRE(week.remarks.size() == 1);
  CHECK(week.remarks.front().code == "spray-day-without-hours");
  DailyWeather wet = mild_days(october - Days{5}, 20);
  wet.rain.set(october, Rain::from_mm(4.0), Quality::forecast);
  CHECK(judge_days(october, 7, SprayJob::foliar, {}, wet, nashville, shipped_rules()).fit_days == 6);
}

TEST_CASE("days without any weather are not judged and not counted") {
  const WeekFitness week = judge_days(october, 7, SprayJob::foliar, {}, {}, nashville, shipped_rules());
  CHECK(!week.fit_days);
  CHECK(week.usable_hours == 0.0);
  CHECK(week.remarks.back().code == "spray-day-without-weather");
}

TEST_CASE("a stricter wind limit never gives more usable hours") {
  rc::prop("over random hours", [] {
    std::vector<HourlyObservation> hours = good_hours(october, 1);
    for (HourlyObservation& reading : hours) {
      reading.wind_m_per_s = *rc::gen::inRange(0, 100) / 10.0;
      reading.humidity_percent = *rc::gen::inRange(5, 100);
      if (*rc::gen::inRange(0, 10) == 0) reading.rain = Rain::from_mm(1.0);
    }
    SprayRules strict = shipped_rules();
    strict.wind_most_m_per_s = 3.0;
    const auto daily = mild_days(october - Days{5}, 12);
    const double usual =
        judge_days(october, 1, SprayJob::foliar, hours, daily, nashville, shipped_rules()).usable_hours;
    const double less =
        judge_days(october, 1, SprayJob::foliar, hours, daily, nashville, strict).usable_hours;
    RC_ASSERT(less <= usual + 1e-9);
    RC_ASSERT(usual <= 24.0);
  });
}
