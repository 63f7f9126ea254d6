// SPDX-License-Identifier: MIT
#include "emergence/stages.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "emergence/sum_curve.hpp"
#include "rapidcheck/catch.h"
#include "support/drawn_models.hpp"

using namespace soilclock;
using namespace soilclock::emergence;

namespace {

std::vector<Temperature> constant_air(double celsius, int days = 365) {
  return std::vector<Temperature>(static_cast<std::size_t>(days), Temperature::from_celsius(celsius));
}

GrowthModel bluegrass_growth() { return tests::shipped_growth("POAAN_leaf_pace"); }

/// Everything comes up on one day.
EmergenceCurve flush_on(int day, int days = 365) {
  EmergenceCurve curve;
  for (int d = 0; d < days; ++d) curve.up.push_back(d < day ? 0.0 : 1.0);
  return curve;
}

double sum_of(const StageShares& s) { return s.leaves_1_3 + s.to_one_tiller + s.two_tillers + s.older; }

}  // namespace

TEST_CASE("at 15 C the Maryland calendar leaves the juvenile plants worked out by hand") {
  // At constant 15 C the first tiller comes after 3.5 leaves of 75 C d, 17.5 days: juvenile = F(day) - F(day
  // - 17.5), worked by script from the calendar curve. Whole days bracket it between 17 and 18 days, and
  // their middle meets it.
  const EmergenceModel calendar = tests::shipped_model("POAAN_calendar_maryland");
  const Season season = season_of(make_day(2021, 8, 1), SeasonKind::fall, Hemisphere::north);
  const EmergenceCurve curve =
      run_calendar(season, season.length(), *response_curve(calendar, central_parameters(calendar)), 0.0);
  const GrowthModel growth = bluegrass_growth();
  const std::vector<double> clock = thermal_age(constant_air(15.0), growth);
  struct Row {
    int day_of_year;
    double emerged;
    double juvenile;
  };
  for (const Row& row : {Row{278, 38.0000, 35.7723},
                         {288, 66.9406, 53.0762},
                         {298, 74.6330, 27.3261},
                         {309, 75.8461, 4.6321}}) {
    CAPTURE(row.day_of_year);
    const int day = row.day_of_year - day_of_year(season.first);
    const double emerged = 100.0 * curve.at(day);
    CHECK(emerged == Approx(row.emerged).margin(0.001));
    const double seventeen =
        100.0 * curve.at(day) * stages_at(curve, clock, day, growth, 15.0 * 16.9 / 3.5).juvenile;
    const double eighteen = 100.0 * curve.at(day) * stages_at(curve, clock, day, growth, 75.0).juvenile;
    CHECK(seventeen <= row.juvenile);
    CHECK(row.juvenile <= eighteen);
    CHECK((seventeen + eighteen) / 2.0 == Approx(row.juvenile).margin(0.1));
  }
}

TEST_CASE("a flush passes through its stages at the ages of the growth file") {
  // Limits in leaves of 75 C d at 15 C: 3 leaves 15 d, 4.5 leaves 22.5 d, 5.5 leaves 27.5 d; first
  // tiller 17.5 d.
  const GrowthModel growth = bluegrass_growth();
  const EmergenceCurve curve = flush_on(100);
  const std::vector<double> clock = thermal_age(constant_air(15.0), growth);
  const auto aged = [&](int days) { return stages_at(curve, clock, 100 + days, growth, 75.0); };
  CHECK(aged(0).leaves_1_3 == 1.0);
  CHECK(aged(14).leaves_1_3 == 1.0);
  CHECK(aged(15).to_one_tiller == 1.0);
  CHECK(aged(17).juvenile == 1.0);
  CHECK(aged(18).juvenile == 0.0);
  CHECK(aged(22).to_one_tiller == 1.0);
  CHECK(aged(23).two_tillers == 1.0);
  CHECK(aged(28).older == 1.0);
}

TEST_CASE("nothing up has no stages") {
  const GrowthModel growth = bluegrass_growth();
  const std::vector<double> clock = thermal_age(constant_air(15.0), growth);
  const StageShares none = stages_at(flush_on(100), clock, 99, growth, 75.0);
  CHECK(sum_of(none) == 0.0);
  CHECK(none.juvenile == 0.0);
}

TEST_CASE("the growth clock stands still in frost and stops rising where the model says") {
  GrowthModel growth = bluegrass_growth();
  CHECK(thermal_age(constant_air(-3.0, 5), growth).back() == 0.0);
  CHECK(thermal_age(constant_air(12.0, 5), growth).back() == Approx(60.0));
  growth.upper = Temperature::from_celsius(25.0);
  CHECK(thermal_age(constant_air(40.0, 2), growth).back() == Approx(50.0));
  const GrowthModel by_days = tests::shipped_growth("ELEIN_stage_days");
  REQUIRE(by_days.clock == GrowthModel::Clock::days);
  CHECK(thermal_age(constant_air(-3.0, 5), by_days).back() == 5.0);
}

TEST_CASE("a southern season is aged like a northern one") {
  // Season days know no hemisphere: the same air gives the same stages, New Year or not.
  const GrowthModel growth = bluegrass_growth();
  std::vector<Temperature> air;
  for (int d = 0; d < 365; ++d) air.push_back(Temperature::from_celsius(14.0 + 9.0 * std::cos(d / 58.1)));
  const std::vector<double> clock = thermal_age(air, growth);
  const EmergenceModel release = tests::shipped_model("POAAN_release");
  std::vector<Temperature> soil(lead_in_days, air.front());
  soil.insert(soil.end(), air.begin(), air.end());
  const std::vector<Rain> water(air.size(), Rain::unknown());
  std::vector<double> juvenile;
  for (const Hemisphere side : {Hemisphere::north, Hemisphere::south}) {
    const Season season = season_of(make_day(2022, 2, 1), SeasonKind::fall, side);
    const Place place{side == Hemisphere::north ? 36.0 : -36.0, 0.0, {}};
    const EmergenceCurve curve =
        tests::run_center(release, {season, {true, 0.0}, soil, soil, soil, water, {0.9}}, place);
    juvenile.push_back(stages_at(curve, clock, 100, growth, 75.0).juvenile);
  }
  CHECK(juvenile.front() > 0.05);
  CHECK(juvenile.front() ==
        Approx(juvenile.back()).margin(0.02));  // 1 August and 1 February lie one season day apart
}

TEST_CASE("laws of stages") {
  const GrowthModel growth = bluegrass_growth();
  rc::prop("the four stages make the whole and the juvenile share shrinks while nothing new comes up", [&] {
    EmergenceCurve curve;
    std::vector<Temperature> air;
    double up = 0.0;
    for (int d = 0; d < 120; ++d) {
      if (d < 60) up += *rc::gen::inRange(0, 100) / 100.0;
      curve.up.push_back(up);
      air.push_back(Temperature::from_celsius(*rc::gen::inRange(-50, 300) / 10.0));
    }
    curve.close_at_own_total();
    const std::vector<double> clock = thermal_age(air, growth);
    const double leaf = *rc::gen::inRange(60, 130);
    double before = 1.0;
    for (int d = 0; d < 120; ++d) {
      const StageShares s = stages_at(curve, clock, d, growth, leaf);
      if (curve.at(d) > 0.0) RC_ASSERT(std::abs(sum_of(s) - 1.0) < 1e-9);
      RC_ASSERT(s.juvenile >= s.leaves_1_3 - 1e-12 && s.juvenile <= s.leaves_1_3 + s.to_one_tiller + 1e-12);
      if (d >= 60) RC_ASSERT(s.juvenile <= before + 1e-12);
      before = s.juvenile;
    }
  });
}
