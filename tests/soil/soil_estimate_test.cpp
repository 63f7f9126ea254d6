// SPDX-License-Identifier: MIT
#include "soil/soil_estimate.hpp"

#include <rapidcheck/catch.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "soil_files.hpp"
#include "support/reference_station.hpp"

using namespace soilclock;
using namespace soilclock::soil;
using soilclock::tests::eastern_pair;
using soilclock::tests::estimate_rules;
using soilclock::tests::soil_file;

namespace {

Temperature celsius(double value) { return Temperature::from_celsius(value); }

/// Air with an annual wave about `mean`, warmest on a given day of the year, and a little weather.
DailySeries<Temperature> made_air(Day first, int days, double mean, double warmest_day_of_year,
                                  double half_range) {
  DailySeries<Temperature> air{DayRange{first, first + Days{days}}};
  for (int i = 0; i < days; ++i) {
    const Day day = first + Days{i};
    const double wave = std::cos(6.283185307 * (day_of_year(day) - warmest_day_of_year) / 365.25);
    air.set(day, celsius(mean + half_range * wave + 3.0 * std::sin(0.9 * i)), Quality::measured);
  }
  return air;
}

const SoilEstimator& at_36_north() {
  static const SoilEstimator estimator{eastern_pair(), Depth::from_cm(5.0), 36.0};
  return estimator;
}

}  // namespace

TEST_CASE("the recursion repeats the check run of Crossville 2020") {
  // Derived: both memories started at 5.905 C, the mean of the first ten days; worked separately.
  const auto station = tests::reference_station("TN_Crossville_7_NW");
  double first_ten = 0.0;
  for (int i = 0; i < 10; ++i)
    first_ten += station.air_mean.values()[static_cast<std::size_t>(i)].celsius() / 10.0;
  CHECK(first_ten == Approx(5.905).margin(1e-9));
  struct Row {
    int doy;
    double air, t5, seen5, t10, seen10;
  };
  const Row rows[]{{32, 3.45, 4.232, 6.5, 4.230, 6.9},       {60, -0.20, 3.170, 4.7, 3.482, 5.2},
                   {80, 15.30, 13.115, 14.6, 12.554, 14.1},  {100, 11.45, 14.621, 15.4, 14.368, 15.5},
                   {152, 16.85, 19.505, 19.5, 19.309, 19.4}, {213, 25.05, 25.118, 25.5, 24.815, 25.3},
                   {244, 23.25, 23.818, 24.6, 23.639, 24.5}, {274, 12.55, 16.649, 16.2, 17.015, 17.0},
                   {305, 8.40, 12.632, 12.5, 13.265, 13.8},  {366, 7.20, 5.809, 7.3, 5.631, 7.5}};
  const SoilEstimator at5{eastern_pair(), Depth::from_cm(5.0), station.place.latitude_deg};
  const SoilEstimator at10{eastern_pair(), Depth::from_cm(10.0), station.place.latitude_deg};
  const auto t5 = estimate_soil(station.air_mean, at5, uniform_state(celsius(5.905)));
  const auto t10 = estimate_soil(station.air_mean, at10, uniform_state(celsius(5.905)));
  for (const Row& row : rows) {
    const Day day = make_day(2020, 1, 1) + Days{row.doy - 1};
    CAPTURE(row.doy);
    CHECK(station.air_mean.at(day)->celsius() == Approx(row.air).margin(1e-9));
    CHECK(t5.at(day)->celsius() == Approx(row.t5).margin(6e-4));
    CHECK(t10.at(day)->celsius() == Approx(row.t10).margin(6e-4));
    CHECK(station.soil.at(5).at(day)->celsius() == Approx(row.seen5));
    CHECK(station.soil.at(10).at(day)->celsius() == Approx(row.seen10));
    CHECK(t5.quality(day) == Quality::modelled);
  }
}

TEST_CASE("the latitude start leads the slow memory by the annual wave") {
  // Written out by hand: 36 N, 1 January, mean 5 C: A = 10.5, w = 2 pi (5.5 - 200) / 365.25 = -3.34587,
  // l = atan(2 pi 60 / 365.25) = 0.80122, cos(w - l) = -0.53568, cos w = -0.97921, so S = 5 + 10.5 (0.69583 x
  // -0.53568 + 0.97921) = 11.3679.
  DailySeries<Temperature> still;
  for (int i = 0; i < 10; ++i) still.set(make_day(2021, 1, 1) + Days{i}, celsius(5.0), Quality::measured);
  const SoilState start = at_36_north().latitude_start(still, still.first());
  CHECK(start.fast_shallow_c == Approx(5.0));
  CHECK(start.slow_c == Approx(11.3679).margin(1e-3));
  const SoilEstimator unknown_latitude{
      {soil_file("one_memory_5cm.json"), soil_file("one_memory_10cm.json"), estimate_rules()},
      Depth::from_cm(5.0),
      std::nullopt};
  CHECK(unknown_latitude.latitude_start(still, still.first()).slow_c == Approx(5.0));
}

TEST_CASE("the latitude start knows how long the slow memory of the loaded model is") {
  DailySeries<Temperature> still;
  for (int i = 0; i < 10; ++i) still.set(make_day(2021, 1, 1) + Days{i}, celsius(5.0), Quality::measured);
  SoilModelPair short_memory = eastern_pair();
  short_memory.shallow.parameters.at("slow_memory").value = 20.0;
  short_memory.deep.parameters.at("slow_memory").value = 20.0;
  const SoilEstimator estimator{short_memory, Depth::from_cm(5.0), 36.0};
  // As above with l = atan(2 pi 20 / 365.25) = 0.33136, so S = 6.7435.
  CHECK(estimator.latitude_start(still, still.first()).slow_c == Approx(6.7435).margin(1e-3));
}

TEST_CASE("depths between and beyond the two fitted ones lie on one straight line") {
  const auto air = made_air(make_day(2020, 3, 1), 60, 12.0, 200, 10.0);
  const auto at = [&](double cm) {
    const SoilEstimator estimator{eastern_pair(), Depth::from_cm(cm), 36.0};
    return estimate_soil(air, estimator).values().back().celsius();
  };
  CHECK(at(7.5) == Approx(0.5 * (at(5.0) + at(10.0))));
  CHECK(at(2.5) == Approx(at(5.0) + 0.5 * (at(5.0) - at(10.0))));
  CHECK(at(15.0) == Approx(2.0 * at(10.0) - at(5.0)));
  CHECK(at(1.0) == at(2.5));
  CHECK(at(40.0) == at(15.0));
}

TEST_CASE("a gap of ten days is bridged, the eleventh day is missing and the record starts anew after it") {
  auto air = made_air(make_day(2020, 3, 1), 120, 12.0, 200, 10.0);
  const Day gap = make_day(2020, 4, 10);
  for (int i = 0; i < 10; ++i) air.clear(gap + Days{i});
  const auto bridged = estimate_soil(air, at_36_north());
  CHECK(bridged.count_missing() == 0);
  CHECK(std::isfinite(bridged.at(gap + Days{9})->celsius()));

  air.clear(gap + Days{10});
  const auto broken = estimate_soil(air, at_36_north());
  CHECK(broken.count_missing() == 1);
  CHECK_FALSE(broken.at(gap + Days{10}));
  const auto fresh = estimate_soil(air.slice({gap + Days{11}, air.days().end()}), at_36_north());
  CHECK(broken.at(gap + Days{11})->celsius() == Approx(fresh.at(gap + Days{11})->celsius()));
}

TEST_CASE("without air there is no estimate") {
  CHECK(estimate_soil(DailySeries<Temperature>{}, at_36_north()).empty());
  const DailySeries<Temperature> nothing{DayRange{make_day(2020, 1, 1), make_day(2020, 2, 1)}};
  CHECK(estimate_soil(nothing, at_36_north()).count_missing() == 31);
  auto late = nothing;
  late.set(make_day(2020, 1, 20), celsius(4.0), Quality::measured);
  CHECK(estimate_soil(late, at_36_north()).quality(make_day(2020, 1, 19)) == Quality::missing);
  CHECK(estimate_soil(late, at_36_north()).quality(make_day(2020, 1, 20)) == Quality::modelled);
}

TEST_CASE("a history run once and a future appended equal one run") {
  rc::prop("splitting a series changes nothing", [] {
    const auto air = made_air(make_day(2019, 11, 1), 200, 10.0, 200, 12.0);
    const Day cut = air.first() + Days{*rc::gen::inRange(10, 199)};
    const auto whole = estimate_soil(air, at_36_north());
    std::optional<SoilState> state;
    at_36_north().run(air.slice({air.first(), cut}), state);
    const auto future = at_36_north().run(air.slice({cut, air.days().end()}), state);
    for (Day day = cut; day < air.days().end(); day += Days{1}) {
      RC_ASSERT(future.at(day)->celsius() == whole.at(day)->celsius());
    }
  });
}

TEST_CASE("constant air gives a constant estimate apart from the sun") {
  rc::prop("one memory: constant; two memories: the radiation term alone moves it", [] {
    const double level = *rc::gen::inRange(-200, 350) / 10.0;
    DailySeries<Temperature> air{DayRange{make_day(2020, 1, 1), make_day(2021, 1, 1)}};
    for (Day day = air.first(); day < air.days().end(); day += Days{1}) {
      air.set(day, celsius(level), Quality::measured);
    }
    const SoilEstimator one{
        {soil_file("one_memory_5cm.json"), soil_file("one_memory_10cm.json"), estimate_rules()},
        Depth::from_cm(5.0),
        std::nullopt};
    const auto flat = estimate_soil(air, one);
    RC_ASSERT(std::abs(flat.values().front().celsius() - flat.values().back().celsius()) < 1e-9);
    const auto sunny = estimate_soil(air, at_36_north(), uniform_state(celsius(level)));
    // 36 N: 41.6969 on day 172 and 16.3093 on day 1; times 0.216.
    const double swing = sunny.values()[171].celsius() - sunny.values()[0].celsius();
    RC_ASSERT(std::abs(swing - 0.216 * (41.6969 - 16.3093)) < 1e-3);
  });
}

TEST_CASE("earlier history changes late values by no more than the slow memory allows") {
  rc::prop("two starts d degrees apart differ by at most (b1 + b3) d e^(-t/60)", [] {
    const double apart = *rc::gen::inRange(-200, 200) / 10.0;
    const auto air = made_air(make_day(2020, 2, 1), 300, 14.0, 200, 8.0);
    const auto one = estimate_soil(air, at_36_north(), uniform_state(celsius(5.0)));
    const auto two = estimate_soil(air, at_36_north(), uniform_state(celsius(5.0 + apart)));
    for (int i = 60; i < 300; ++i) {
      const auto t = static_cast<std::size_t>(i);
      const double difference = std::abs((one.values()[t] - two.values()[t]).kelvin());
      RC_ASSERT(difference <=
                0.361 * std::abs(apart) * std::exp(-(i + 1) / 60.0) + 1e-6 * std::abs(apart) + 1e-12);
    }
  });
}

TEST_CASE("the southern half of the year mirrors the northern one") {
  rc::prop("latitude sign and half a year give nearly the same soil", [] {
    const double latitude = *rc::gen::inRange(20, 60);
    DailySeries<Temperature> north{DayRange{make_day(2019, 1, 1), make_day(2021, 1, 1)}};
    DailySeries<Temperature> south{DayRange{make_day(2019, 7, 2), make_day(2021, 7, 2)}};
    for (int i = 0; i < north.size(); ++i) {
      const Temperature air =
          celsius(12.0 - 10.0 * std::cos(6.283185307 * (i - 17) / 365.25) + 2.0 * std::sin(i));
      north.set(north.first() + Days{i}, air, Quality::measured);
      south.set(south.first() + Days{i}, air, Quality::measured);
    }
    const SoilEstimator up{eastern_pair(), Depth::from_cm(5.0), latitude};
    const SoilEstimator down{eastern_pair(), Depth::from_cm(5.0), -latitude};
    const auto a = estimate_soil(north, up);
    const auto b = estimate_soil(south, down);
    // The sun's distance favors the southern summer by 6.6 percent of at most 43 MJ: 0.216 x 2.9 = 0.6 C.
    for (std::size_t i = 0; i < a.values().size(); ++i) {
      RC_ASSERT(std::abs((a.values()[i] - b.values()[i]).kelvin()) < 0.75);
    }
  });
}

TEST_CASE("the canopy recursion follows air slowly and stops after ten days without it") {
  const SoilModel model = soil_file("canopy_recursion.json");
  auto air = made_air(make_day(2020, 3, 1), 60, 12.0, 200, 0.0);
  for (int i = 0; i < 12; ++i) air.clear(make_day(2020, 4, 1) + Days{i});
  const auto soil = canopy_recursion(air, model, Depth::from_cm(5.0), estimate_rules());
  CHECK(soil.count_missing() == 2);
  CHECK(soil.values().front().celsius() == Approx(12.0).margin(1.5));
}
