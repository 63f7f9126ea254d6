// SPDX-License-Identifier: MIT
// Model files run over seasons: published onsets and sums, both hemispheres, and the laws every member must
// keep.
#include "emergence/member_run.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "rapidcheck/catch.h"
#include "support/drawn_models.hpp"
#include "support/season_weather.hpp"

using namespace soilclock;
using namespace soilclock::emergence;
using testing::SeasonWeather;
using tests::run_center;
using tests::shipped_model;

namespace {

const Place carolina{36.0, -79.0, {}};
constexpr int february_15 = 45;

SeasonWeather constant_spring(double celsius) {
  return SeasonWeather{[=](int) { return celsius; }, Hemisphere::north, SeasonKind::summer};
}

/// Days from the start of the sum to the first large crabgrass, part days by the straight line within the
/// onset day.
double onset_days(double celsius) {
  const SeasonWeather weather = constant_spring(celsius);
  const EmergenceModel model = shipped_model("DIGSA_arkansas_onset");
  const EmergenceCurve curve = run_center(model, weather.drivers(), carolina);
  const auto first = std::find_if(curve.up.begin(), curve.up.end(), [](double up) { return up > 0.0; });
  if (first == curve.up.end()) return -1.0;
  const double whole_days = static_cast<double>(first - curve.up.begin()) - february_15;
  const double gained = (celsius - model.parameter("base_temperature"));
  return whole_days + (model.parameter("onset_sum") - whole_days * gained) / gained;
}

/// Members of all shipped ensembles.
const std::vector<std::string> member_ids{"POAAN_release",
                                          "POAAN_soil_crossing",
                                          "POAAN_cooling_degree_days",
                                          "POAAN_calendar_maryland",
                                          "DIGIS_maryland_25_75",
                                          "DIGSA_arkansas_onset",
                                          "ELEIN_after_smooth_crabgrass",
                                          "DIGSA_hydrothermal",
                                          "ELEIN_hydrothermal",
                                          "SETPU_hydrothermal",
                                          "SETVI_hydrothermal"};

}  // namespace

TEST_CASE("large crabgrass begins after the days the Arkansas chambers gave") {
  // King & Oliver 1994, Weed Sci 42:561-567: 9-10 d at 15 C, 2-3 d at 30-35 C, little or none below 15 C.
  CHECK(onset_days(15.0) == Approx(9.4444).margin(0.0001));
  CHECK(onset_days(30.0) == Approx(2.5).margin(0.0001));
  CHECK(onset_days(20.0) == Approx(4.9038).margin(0.0001));
  CHECK(onset_days(14.9) == -1.0);
}

TEST_CASE("smooth crabgrass runs on the shallow soil from 15 February") {
  // 22 C: ten degree-days above 12 C a day; 25 % at 140 and 75 % at 230 (Fidanza et al. 1996, read as 25 to
  // 75).
  const SeasonWeather weather = constant_spring(22.0);
  const EmergenceCurve curve = run_center(shipped_model("DIGIS_maryland_25_75"), weather.drivers(), carolina);
  CHECK(curve.at(february_15 - 1) == Approx(0.0).margin(1e-6));
  CHECK(100.0 * curve.at(february_15 + 13) == Approx(24.9787).margin(0.01));
  CHECK(100.0 * curve.at(february_15 + 22) == Approx(75.0399).margin(0.01));
  // Cold soil at 5 cm must not matter to a model of 2.5 cm.
  const std::vector<Temperature> cold(weather.drivers().soil.size(), Temperature::from_celsius(2.0));
  SeasonDrivers shallow_only = weather.drivers();
  shallow_only.soil = cold;
  CHECK(run_center(shipped_model("DIGIS_maryland_25_75"), shallow_only, carolina).up == curve.up);
}

TEST_CASE("cooling degree-days count air below 21 C from midsummer") {
  const SeasonWeather weather{
      [](int) { return 11.3; }};  // 9.7 a day: 97, the middle of the curve, after ten days
  const EmergenceCurve curve =
      run_center(shipped_model("POAAN_cooling_degree_days"), weather.drivers(), carolina);
  CHECK(curve.at(9) == Approx(0.5).margin(1e-4));
}

TEST_CASE("goosegrass follows smooth crabgrass by three weeks and waits for soil of 15.6 C") {
  const SeasonWeather warm = constant_spring(22.0);
  const EmergenceCurve leader = run_center(shipped_model("DIGIS_maryland_25_75"), warm.drivers(), carolina);
  const EmergenceCurve goosegrass =
      run_center(shipped_model("ELEIN_after_smooth_crabgrass"), warm.drivers(), carolina);
  CHECK(*goosegrass.first_day_reaching(0.5) - *leader.first_day_reaching(0.5) == 21);
  const SeasonWeather cool = constant_spring(15.0);
  CHECK(run_center(shipped_model("ELEIN_after_smooth_crabgrass"), cool.drivers(), carolina).at(364) == 0.0);
}

TEST_CASE("onset rules and bare base temperatures claim no course") {
  const SeasonWeather warm = constant_spring(22.0);
  for (const std::string id : {"DIGIS_ohio_onset", "DIGSA_ohio_onset", "SETPU_base"}) {
    const EmergenceCurve none = run_center(shipped_model(id), warm.drivers(), carolina);
    CAPTURE(id);
    CHECK(none.up.size() == 365);
    CHECK(none.at(364) == 0.0);
    CHECK(!none.main_wave_over);
  }
}

TEST_CASE("forms without a wave of their own call it over at nine tenths of the autumn share") {
  const SeasonWeather any{[](int) { return 15.0; }};
  const EmergenceCurve calendar =
      run_center(shipped_model("POAAN_calendar_maryland"), any.drivers(), carolina);
  CHECK(calendar.main_wave_over == calendar.first_day_reaching(0.9 * 0.76));
}

TEST_CASE("seed grows northern between 39 and 43 degrees, on either side of the equator") {
  const SeasonWeather cooling{[](int day) { return 26.0 - 0.1 * day; }};
  const EmergenceModel release = shipped_model("POAAN_release");
  const auto half = [&](double latitude) {
    return *run_center(release, cooling.drivers({true, 0.0}), {latitude, 0.0, {}}).first_day_reaching(0.38);
  };
  CHECK(half(39.0) == half(30.0));
  CHECK(half(43.0) < half(39.0) - 20);
  CHECK(half(50.0) == half(43.0));
  CHECK(half(-43.0) == half(43.0));
  for (double latitude = 38.0; latitude < 44.0; latitude += 0.1) {
    CAPTURE(latitude);
    CHECK(half(latitude) - half(latitude + 0.1) >= 0);
    CHECK(half(latitude) - half(latitude + 0.1) <= 3);
  }
}

TEST_CASE(
    "a month-day is the same day of the season north and south, but for the lengths of the half years") {
  const Season north = season_of(make_day(2021, 8, 1), SeasonKind::fall, Hemisphere::north);
  const Season south = season_of(make_day(2021, 2, 1), SeasonKind::fall, Hemisphere::south);
  CHECK(season_day({8, 1}, north) == 41);
  CHECK(season_day({8, 1}, south) == 42);  // 1 February, 42 days after 21 December
  CHECK(season_day({5, 15}, north) == 328);
}

TEST_CASE("laws of members") {
  std::vector<EmergenceModel> models;
  for (const std::string& id : member_ids) models.push_back(shipped_model(id));
  rc::prop("whatever the weather, emergence never falls, and what comes up ends at the whole", [&] {
    const double mean = *rc::gen::inRange(0, 250) / 10.0;
    const double swing = *rc::gen::inRange(0, 200) / 10.0;
    const auto noise = *rc::gen::container<std::vector<int>>(375, rc::gen::inRange(-50, 51));
    for (const EmergenceModel& model : models) {
      const bool fall = model.target == "POAAN";
      const SeasonWeather weather{[&](int day) {
                                    const double phase =
                                        2.0 * std::numbers::pi * (day - (fall ? 30 : 200)) / 365.0;
                                    return mean + swing * std::cos(phase) +
                                           noise[static_cast<std::size_t>(day + lead_in_days)] / 10.0;
                                  },
                                  Hemisphere::north, fall ? SeasonKind::fall : SeasonKind::summer};
      const EmergenceCurve curve = run_center(model, weather.drivers(), carolina);
      double before = 0.0;
      for (const double up : curve.up) {
        RC_ASSERT(up >= before - 1e-12);
        before = up;
      }
      RC_ASSERT(before == 0.0 || std::abs(before - 1.0) < 1e-9);
    }
  });
}

TEST_CASE("the same weather in another year makes the same season") {
  // Both seasons have 365 days; 2021 and 2022 differ in nothing but their number.
  std::vector<Temperature> soil;
  std::vector<Rain> rain;
  for (int d = -lead_in_days; d < 365; ++d) {
    soil.push_back(
        Temperature::from_celsius(15.0 + 11.0 * std::cos(2.0 * std::numbers::pi * (d - 35) / 365.0)));
    rain.push_back(Rain::from_mm(d % 6 == 0 ? 9.0 : 0.0));
  }
  const std::vector<Rain> water = week_of_water(rain, {}, 4);
  for (const std::string& id : member_ids) {
    const EmergenceModel model = shipped_model(id);
    const SeasonKind kind = model.target == "POAAN" ? SeasonKind::fall : SeasonKind::summer;
    std::vector<std::vector<double>> curves;
    for (const int year : {2021, 2022}) {
      const Season season = season_of(make_day(year, 8, 1), kind, Hemisphere::north);
      curves.push_back(run_center(model, {season, {}, soil, soil, soil, water, {0.9}}, carolina).up);
    }
    CAPTURE(id);
    CHECK(curves.front() == curves.back());
  }
}
