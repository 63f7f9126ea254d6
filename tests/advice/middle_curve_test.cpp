// SPDX-License-Identifier: MIT
#include "advice/ensemble/middle_curve.hpp"

#include <catch2/catch.hpp>

#include "advice/answer/windows.hpp"
#include "made_up_site.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

/// Members of two models: each comes up by one percent a day, those of the first from `first` on, of the
/// second from `second` on; each model's members a day apart from one another.
TargetRun two_models(int first, int first_members, int second, int second_members) {
  static const emergence::EmergenceModel& model = shipped_catalogue().emergence.begin()->second;
  TargetRun run;
  run.season = season_of(make_day(2021, 8, 1), SeasonKind::fall, Hemisphere::north);
  run.job.models = {{&model, 0.5}, {&model, 0.5}};
  const auto add = [&](std::size_t of_model, int begins) {
    TargetMember member;
    member.model = of_model;
    for (int d = 0; d < run.season.length(); ++d)
      member.curve.up.push_back(std::clamp(d - begins, 0, 100) / 100.0);
    member.curve.main_wave_over = begins + 90;
    run.members.push_back(std::move(member));
  };
  for (int m = 0; m < first_members; ++m) add(0, first + m - first_members / 2);
  for (int m = 0; m < second_members; ++m) add(1, second + m - second_members / 2);
  return run;
}

const DecisionRules& decision_rules() { return shipped_catalogue().practice.decision; }

}  // namespace

TEST_CASE("two models apart give a middle as steep as each of them") {
  const TargetRun run = two_models(50, 5, 110, 5);
  const MiddleCurve middle{run};
  CHECK(middle.first_day_reaching(0.5) == 130);  // half way from day 100 to day 160
  CHECK(*middle.first_day_reaching(0.75) - *middle.first_day_reaching(0.25) == 50);
  // The mean of their percents would need days 75 to 185 for the same.
}

TEST_CASE("the middle's percents and dates say the same") {
  const TargetRun run = two_models(50, 7, 70, 3);
  const MiddleCurve middle{run};
  for (int percent = 1; percent <= 100; ++percent) {
    CAPTURE(percent);
    const int day = *middle.first_day_reaching(percent / 100.0);
    CHECK(middle.at(day) >= percent / 100.0 - 1e-9);
    CHECK(middle.at(day - 1) < percent / 100.0);
  }
  CHECK(middle.at(-1) == 0.0);
}

TEST_CASE("a member that changes sides moves the middle by its share, not from one model to the other") {
  const int before = *MiddleCurve{two_models(50, 51, 110, 49)}.first_day_reaching(0.5);
  const int after = *MiddleCurve{two_models(50, 49, 110, 51)}.first_day_reaching(0.5);
  CHECK(after - before >= 1);
  CHECK(after - before <= 2);
}

TEST_CASE("what more than half never reach has no middle") {
  TargetRun run = two_models(50, 4, 70, 6);
  for (TargetMember& member : run.members) {
    if (member.model == 1) member.curve.up.assign(member.curve.up.size(), 0.0);
  }
  CHECK(!MiddleCurve{run}.first_day_reaching(0.5));
  CHECK(!MiddleCurve{TargetRun{}}.first_day_reaching(0.5));
}

TEST_CASE("models more than two weeks apart are named with both dates") {
  const TargetRun near = two_models(50, 5, 64, 5);
  CHECK(milestones_of(near, MiddleCurve{near}, decision_rules())[0].either.empty());
  const TargetRun far = two_models(50, 5, 66, 5);
  for (const Milestone& milestone : milestones_of(far, MiddleCurve{far}, decision_rules())) {
    CAPTURE(milestone.percent);
    REQUIRE(milestone.either.size() == 2);
    CHECK(milestone.either[0].date == far.season.first + Days{50 + milestone.percent});
    CHECK(milestone.either[1].date == far.season.first + Days{66 + milestone.percent});
    CHECK(milestone.either[0].weight == Approx(0.5));
    CHECK(*milestone.date.middle > milestone.either[0].date);
    CHECK(*milestone.date.middle < milestone.either[1].date);
  }
  // A model of little weight has no say.
  const TargetRun lone = two_models(50, 9, 110, 1);
  CHECK(milestones_of(lone, MiddleCurve{lone}, decision_rules())[0].either.empty());
}
