// SPDX-License-Identifier: MIT
#include "advice/futures/scenarios.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "made_up_site.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const Day scenarios_on = make_day(2020, 10, 20);
const DayRange span{make_day(2020, 6, 11), make_day(2021, 6, 21)};

weather::DailyWeather seven_years() {
  const Noise noise{make_day(2013, 10, 1), 2700, 4.0, 0.7};
  return air_of({make_day(2013, 10, 1), scenarios_on},
                [&](Day day) { return annual_wave(day, 13.0, 11.0) + noise.on(day); });
}

Scenarios scenarios_of(const SiteWeather& site, int members = 200, std::uint64_t seed = 1) {
  const StratifiedDraws draws{seed, members};
  return {site,
          shipped_catalogue().soil,
          shipped_catalogue().futures,
          site_soil(site, shipped_catalogue().soil),
          span,
          draws,
          seed};
}

std::size_t index(Day day) { return static_cast<std::size_t>((day - span.begin()).count()); }

struct ErrorMoments {
  double mean = 0.0;
  double sd = 0.0;
};

/// Estimate minus the soil of the members, on one day.
ErrorMoments error_on(const Scenarios& scenarios, Day day) {
  double sum = 0.0;
  double squares = 0.0;
  for (int m = 0; m < scenarios.members(); ++m) {
    const double error =
        (scenarios.weather_of(m).soil_estimate[index(day)] - scenarios.soil_of(m).at_5cm[index(day)])
            .kelvin();
    sum += error;
    squares += error * error;
  }
  const double n = scenarios.members();
  return {sum / n, std::sqrt(squares / n - sum * sum / n / n)};
}

}  // namespace

TEST_CASE("measured soil passes through for all members, and readings narrow the days around") {
  const SiteWeather bare = site_with(seven_years(), scenarios_on);
  SiteWeather probed = bare;
  const Day read = make_day(2020, 9, 15);
  auto& probe = probed.daily.soil[Depth::from_cm(5.0)];
  for (Day day = read - Days{4}; day <= read; day += Days{1})
    probe.set(day, celsius(19.3), Quality::measured);
  const Scenarios open = scenarios_of(bare);
  const Scenarios known = scenarios_of(probed);
  for (int m = 0; m < known.members(); ++m) {
    for (Day day = read - Days{4}; day <= read; day += Days{1}) {
      REQUIRE(known.soil_of(m).at_5cm[index(day)] == celsius(19.3));
    }
  }
  CHECK(error_on(known, read + Days{2}).sd < 0.7 * error_on(open, read + Days{2}).sd);
}

TEST_CASE("elsewhere a member's soil is the estimate less an error of the stated size") {
  const SiteWeather site = site_with(seven_years(), scenarios_on);
  const Scenarios scenarios = scenarios_of(site, 400);
  const soil::ConditionedSoilError stated{
      site_soil(site, shipped_catalogue().soil).at_5cm.error, Hemisphere::north, span, {}};
  for (const Day day : {make_day(2020, 7, 1), make_day(2020, 9, 20), make_day(2021, 2, 1)}) {
    const ErrorMoments error = error_on(scenarios, day);
    CAPTURE(iso(day), error.mean, error.sd);
    // 400 members: the mean is known to sd/20, the standard deviation to 3.5 %; three of each.
    CHECK(error.mean == Approx(0.0).margin(0.15 * stated.sd(day).kelvin()));
    CHECK(error.sd == Approx(stated.sd(day).kelvin()).epsilon(0.11));
  }
}

TEST_CASE("all members share what is known and part at the outlook start") {
  const SiteWeather site = site_with(seven_years(), scenarios_on);
  const Scenarios scenarios = scenarios_of(site);
  CHECK(scenarios.traces().size() == 7);  // the past seasons
  const WeatherTrace& first = scenarios.traces().front();
  bool part = false;
  for (const WeatherTrace& trace : scenarios.traces()) {
    REQUIRE(trace.air_mean.size() == static_cast<std::size_t>(span.size()));
    for (Day day = span.begin(); day < scenarios_on; day += Days{1}) {
      REQUIRE(trace.air_mean[index(day)] == first.air_mean[index(day)]);
      REQUIRE(trace.soil_estimate[index(day)] == first.soil_estimate[index(day)]);
    }
    part = part || trace.air_mean[index(scenarios_on)] != first.air_mean[index(scenarios_on)];
  }
  CHECK(part);
  CHECK(first.air_mean[index(make_day(2020, 8, 1))] ==
        midpoint(*site.daily.air_min.at(make_day(2020, 8, 1)), *site.daily.air_max.at(make_day(2020, 8, 1))));
}

TEST_CASE("a future's soil is what the estimator says of record and future in one piece") {
  const SiteWeather site = site_with(seven_years(), scenarios_on);
  const Scenarios scenarios = scenarios_of(site);
  const WeatherTrace& trace = scenarios.traces().at(2);
  SiteWeather whole = site;
  for (Day day = scenarios_on; day < span.end(); day += Days{1}) {
    const Temperature high = trace.air_max[index(day)];
    const Temperature low = high - (high - trace.air_mean[index(day)]) * 2.0;
    whole.daily.air_max.set(day, high, Quality::measured);
    whole.daily.air_min.set(day, low, Quality::measured);
  }
  whole.outlook_start = span.end();
  const SiteSoil in_one = site_soil(whole, shipped_catalogue().soil);
  for (Day day = span.begin(); day < span.end(); day += Days{1}) {
    REQUIRE(trace.soil_estimate[index(day)].celsius() == Approx(in_one.at_5cm.estimate.at(day)->celsius()));
  }
}

TEST_CASE("every future is lived through by its even part of the members") {
  const Scenarios scenarios = scenarios_of(site_with(seven_years(), scenarios_on), 280);
  for (const WeatherTrace& trace : scenarios.traces()) {
    int living = 0;
    for (int m = 0; m < scenarios.members(); ++m) living += &scenarios.weather_of(m) == &trace ? 1 : 0;
    CHECK(living == 40);
  }
}

TEST_CASE("guessed days spread the members, filled and measured ones do not") {
  const auto with_quality = [](Quality quality) {
    SiteWeather site = site_with(seven_years(), scenarios_on);
    for (Day day = make_day(2020, 9, 1); day < make_day(2020, 9, 9); day += Days{1}) {
      site.daily.air_min.set(day, *site.daily.air_min.at(day), quality);
      site.daily.air_max.set(day, *site.daily.air_max.at(day), quality);
    }
    return scenarios_of(site, 400);
  };
  const Day last = make_day(2020, 9, 8);
  const double measured = error_on(with_quality(Quality::measured), last).sd;
  const Scenarios guessed = with_quality(Quality::past_year);
  // Eight days of air unknown by 2.8 K, six tenths of it in the soil: 1.7 K more, in squares.
  CHECK(error_on(guessed, last).sd == Approx(std::hypot(measured, 1.7)).epsilon(0.12));
  CHECK(error_on(guessed, last + Days{20}).sd ==
        Approx(error_on(with_quality(Quality::measured), last + Days{20}).sd).epsilon(0.02));
  // The analysis of a weather service is no guess.
  CHECK(error_on(with_quality(Quality::modelled), last).sd == Approx(measured));
  CHECK(error_on(with_quality(Quality::filled), last).sd == Approx(measured));
}

TEST_CASE("a guess stays in the soil for as long as the loaded model remembers") {
  SiteWeather site = site_with(seven_years(), scenarios_on);
  const Day guessed = make_day(2020, 9, 8);
  site.daily.air_min.set(guessed, *site.daily.air_min.at(guessed), Quality::past_year);
  site.daily.air_max.set(guessed, *site.daily.air_max.at(guessed), Quality::past_year);
  // How far the guess moves the soil of the members on a day; their draws are the same for every model.
  const auto moved = [&](double fast_memory_days, Day day) {
    std::vector<soil::SoilModel> models = shipped_catalogue().soil.all();
    for (soil::SoilModel& model : models) {
      if (model.form == soil::SoilForm::two_memories)
        model.parameters.at("fast_memory").value = fast_memory_days;
    }
    const soil::SoilModels loaded =
        *soil::SoilModels::from(std::move(models), shipped_catalogue().soil.rules());
    SiteWeather known = site;
    for (auto* air : {&known.daily.air_min, &known.daily.air_max})
      air->set(guessed, *air->at(guessed), Quality::measured);
    const StratifiedDraws draws{1, 200};
    const Scenarios with{site, loaded, shipped_catalogue().futures, site_soil(site, loaded), span, draws, 1};
    const Scenarios without{known, loaded, shipped_catalogue().futures, site_soil(known, loaded), span,
                            draws, 1};
    double squares = 0.0;
    for (int m = 0; m < 200; ++m) {
      squares +=
          std::pow((with.soil_of(m).at_5cm[index(day)] - without.soil_of(m).at_5cm[index(day)]).kelvin(), 2);
    }
    return std::sqrt(squares / 200.0);
  };
  // One day of a memory of n days: 1 - exp(-1/n) of the error at once, exp(-1/n) of that a day later.
  const double at_once = moved(2.0, guessed);
  CHECK(moved(2.0, guessed + Days{4}) / at_once == Approx(std::exp(-4.0 / 2.0)));
  CHECK(moved(8.0, guessed + Days{4}) / moved(8.0, guessed) == Approx(std::exp(-4.0 / 8.0)));
  CHECK(moved(8.0, guessed) / at_once == Approx(std::expm1(-1.0 / 8.0) / std::expm1(-1.0 / 2.0)));
}

TEST_CASE("shallow soil moves with the soil of the member") {
  const Scenarios scenarios = scenarios_of(site_with(seven_years(), scenarios_on), 20);
  for (int m = 0; m < 20; ++m) {
    const MemberSoil soil = scenarios.soil_of(m);
    const WeatherTrace& trace = scenarios.weather_of(m);
    const std::size_t i = index(make_day(2020, 8, 3));
    CHECK((soil.shallow[i] - soil.at_5cm[i]).kelvin() == Approx(trace.shallow_minus_5cm[i].kelvin()));
  }
}

TEST_CASE("an offset found by the user moves estimate and members alike") {
  const SiteWeather plain = site_with(seven_years(), scenarios_on);
  SiteWeather moved = plain;
  moved.soil_offset = TemperatureDelta::from_kelvin(1.5);
  const Scenarios a = scenarios_of(plain, 20);
  const Scenarios b = scenarios_of(moved, 20);
  for (const Day day : {make_day(2020, 8, 3), make_day(2021, 3, 1)}) {
    CHECK((b.soil_of(3).at_5cm[index(day)] - a.soil_of(3).at_5cm[index(day)]).kelvin() == Approx(1.5));
    CHECK((b.soil_of(3).shallow[index(day)] - a.soil_of(3).shallow[index(day)]).kelvin() == Approx(1.5));
  }
}

TEST_CASE("the unbroken run before the outlook start is found, and a missing day ends it") {
  SiteWeather site = site_with(seven_years(), scenarios_on);
  CHECK(complete_since(site) == make_day(2013, 10, 1));
  site.daily.air_max.clear(make_day(2020, 8, 5));
  CHECK(complete_since(site) == make_day(2020, 8, 6));
  site.daily.air_min.clear(scenarios_on - Days{1});
  CHECK(complete_since(site) == scenarios_on);
}

TEST_CASE("the same seed gives the same members") {
  const SiteWeather site = site_with(seven_years(), scenarios_on);
  CHECK(scenarios_of(site, 20, 3).soil_of(7).at_5cm == scenarios_of(site, 20, 3).soil_of(7).at_5cm);
  CHECK(scenarios_of(site, 20, 3).soil_of(7).at_5cm != scenarios_of(site, 20, 4).soil_of(7).at_5cm);
}

TEST_CASE("members of a forecast part the courses before the futures do") {
  SiteWeather site = site_with(seven_years(), scenarios_on);
  const Day first = site.outlook_start - Days{10};
  for (Day day = first; day < site.outlook_start; day += Days{1}) {
    site.daily.air_min.set(day, *site.daily.air_min.at(day), Quality::forecast);
    site.daily.air_max.set(day, *site.daily.air_max.at(day), Quality::forecast);
  }
  const Scenarios single = scenarios_of(site, 300);
  for (int m = -5; m <= 5; ++m) {
    weather::DailyWeather way;
    for (Day day = first; day < site.outlook_start; day += Days{1}) {
      way.air_min.set(day, *site.daily.air_min.at(day) + TemperatureDelta::from_kelvin(m), Quality::forecast);
      way.air_max.set(day, *site.daily.air_max.at(day) + TemperatureDelta::from_kelvin(m), Quality::forecast);
    }
    site.forecast_members.push_back(way);
  }
  site.first_forecast = first;
  const Scenarios many = scenarios_of(site, 300);
  // The middle member is the forecast itself: its course is the single one's, soil memories and all.
  const std::size_t last = index(site.outlook_start - Days{1});
  bool found = false;
  double lowest = 1e9;
  double highest = -1e9;
  for (const WeatherTrace& trace : many.traces()) {
    REQUIRE(trace.air_mean.size() == single.traces()[0].air_mean.size());
    const double off = (trace.air_mean[last] - single.traces()[0].air_mean[last]).kelvin();
    lowest = std::min(lowest, off);
    highest = std::max(highest, off);
    if (std::abs(off) < 1e-9) {
      found = true;
      CHECK((trace.soil_estimate[last] - single.traces()[0].soil_estimate[last]).kelvin() ==
            Approx(0.0).margin(1e-6));
    }
    CHECK(trace.air_mean[index(first) - 1] == single.traces()[0].air_mean[index(first) - 1]);
  }
  CHECK(found);
  CHECK(lowest == Approx(-5.0));
  CHECK(highest == Approx(5.0));
  // Every future comes equally often.
  CHECK(many.traces().size() % single.traces().size() == 0);
}
