// SPDX-License-Identifier: MIT
#include "advice/answer/season_table.hpp"

#include <catch2/catch.hpp>

#include "advice/ensemble/quantiles.hpp"
#include "made_up_question.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;
using treatment::Kind;

namespace {

const Day applied = make_day(2020, 9, 10);

/// Percent juvenile of one member, counted cohort by cohort: the obvious way.
double young_of(const TargetMember& member, int day) {
  const emergence::GrowthModel& growth = *made_up().run().job.growth;
  const auto now = member.thermal_age[static_cast<std::size_t>(day)];
  double young = 0.0;
  for (int born = 0; born <= day; ++born) {
    const double age = now - member.thermal_age[static_cast<std::size_t>(born)];
    if (age < growth.juvenile_below * member.phyllochron)
      young += member.curve.at(born) - member.curve.at(born - 1);
  }
  return 100.0 * young;
}

}  // namespace

TEST_CASE("young and older are shares of the season's seedlings, member by member") {
  const auto table = season_table(Said{}.inputs());
  REQUIRE(table.size() == 365);
  for (const int day : {70, 100, 121, 150, 200, 300}) {
    std::vector<double> young;
    std::vector<double> older;
    for (const TargetMember& member : made_up().run().members) {
      young.push_back(young_of(member, day));
      older.push_back(100.0 * member.curve.at(day) - young.back());
    }
    const SeasonDay& row = table[static_cast<std::size_t>(day)];
    const Band<double> expected_young = band_of(young);
    const Band<double> expected_older = band_of(older);
    for (const auto part : {&Band<double>::low, &Band<double>::high}) {
      CHECK(row.young_percent.*part == Approx(expected_young.*part).margin(1e-6));
      CHECK(row.older_percent.*part == Approx(expected_older.*part).margin(1e-6));
    }
    // What is up splits into the two without a rest.
    CHECK(row.young_percent.middle >= row.young_percent.low);
    CHECK(row.young_percent.middle <= row.young_percent.high);
    CHECK(row.young_percent.middle + row.older_percent.middle ==
          Approx(row.emerged_percent.middle).margin(1e-9));
  }
  for (const SeasonDay& row : table) {
    CHECK(row.soil_low <= row.soil_5cm);
    CHECK(row.soil_5cm <= row.soil_high);
    CHECK(row.young_percent.low + row.older_percent.low <= row.emerged_percent.high + 1e-9);
    CHECK(row.young_percent.high <= 100.0);
    CHECK(!row.residual_left_percent);
  }
}

TEST_CASE("what is left of a residual begins with its day, falls, and is what the answer says this morning") {
  Said noted;
  SiteApplication application;
  application.day = applied;
  application.kind = Kind::pre;
  application.watered_in_after_days = 0;
  noted.log.applications = {application};
  const auto table = season_table(noted.inputs());
  REQUIRE(noted.answered().after);
  double before = 100.0;
  for (const SeasonDay& row : table) {
    CHECK(row.residual_left_percent.has_value() == (row.day >= applied));
    if (row.day == applied) CHECK(*row.residual_left_percent == Approx(100.0).margin(2.0));
    if (!row.residual_left_percent) continue;
    CHECK(*row.residual_left_percent <= before);
    before = *row.residual_left_percent;
    if (row.day == asked_on)
      CHECK(*row.residual_left_percent == Approx(*noted.answer.after->dose_left_percent));
  }
  CHECK(before < 20.0);
}
