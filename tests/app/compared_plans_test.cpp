// SPDX-License-Identifier: MIT
// Further plans are decided for from the same members: each must come out as if it had been the site's own.
#include <catch2/catch.hpp>

#include "advice/made_up_site.hpp"
#include "pipeline.hpp"

using namespace soilclock;

namespace {

treatment::TankPlan plan_of(double residual_weeks, treatment::FoliarClass foliar) {
  treatment::TankPlan plan;
  plan.residual_weeks = residual_weeks;
  plan.foliar = foliar;
  return plan;
}

/// Seven years of a usual course, the last winter with hard frost.
SiteRequest request_on(Day on) {
  SiteRequest request;
  request.id = request.name = "made up";
  request.place = tests::carolina;
  request.on = on;
  request.targets = {"POAAN"};
  const DayRange frost{make_day(2020, 12, 21), make_day(2021, 1, 25)};
  const auto mean = [&](Day day) {
    return frost.contains(day) ? -18.0 : tests::annual_wave(day, 15.0, 11.0);
  };
  request.stored.series.push_back(
      {"made up", "made up", tests::air_of({make_day(2014, 1, 1), on}, mean), false, false, {}, {}});
  return request;
}

advice::TargetAnswer first_answer(const SiteRequest& request) {
  const advice::SiteAnswer answer = answer_site(request, tests::shipped_catalogue());
  REQUIRE(answer.targets.size() == 1);
  REQUIRE_FALSE(answer.targets.front().refusal);
  return answer.targets.front();
}

std::vector<treatment::TankPlan> some_plans() {
  return {
      {}, plan_of(8.0, treatment::FoliarClass::contact), plan_of(20.0, treatment::FoliarClass::translocated)};
}

void check_same(const advice::Decision& a, const advice::Decision& b) {
  CHECK(a.action == b.action);
  CHECK(a.kind == b.kind);
  CHECK(a.good_through == b.good_through);
  REQUIRE(a.best_range.has_value() == b.best_range.has_value());
  if (a.best_range) CHECK(a.best_range->first == b.best_range->first);
  CHECK(a.cost_of_waiting == b.cost_of_waiting);
}

void check_same(const advice::TreatmentWeek& a, const advice::TreatmentWeek& b) {
  CHECK(a.week_of == b.week_of);
  for (const treatment::Kind kind : treatment::all_kinds) CHECK(a.score(kind) == b.score(kind));
}

}  // namespace

TEST_CASE("a compared plan is decided as if it were the site's own") {
  const Day on = make_day(2020, 9, 28);
  SiteRequest comparing = request_on(on);
  comparing.plan = plan_of(12.0, treatment::FoliarClass::contact);
  comparing.compared_plans = some_plans();
  comparing.plan_tables = true;
  const advice::TargetAnswer compared = first_answer(comparing);
  REQUIRE(compared.compared_plans.size() == some_plans().size());
  for (std::size_t i = 0; i < some_plans().size(); ++i) {
    INFO("plan " << i);
    SiteRequest alone = request_on(on);
    alone.plan = some_plans()[i];
    const advice::TargetAnswer own = first_answer(alone);
    const advice::ComparedPlan& plan = compared.compared_plans[i];
    check_same(plan.decision, own.decision);
    REQUIRE(plan.weeks.size() == own.weeks.size());
    for (std::size_t week = 0; week < plan.weeks.size(); ++week)
      check_same(plan.weeks[week], own.weeks[week].week);
  }
}

TEST_CASE("tables of compared plans come when asked for and cover the season") {
  const Day on = make_day(2020, 9, 30);
  SiteRequest request = request_on(on);
  request.compared_plans = some_plans();
  for (const advice::ComparedPlan& plan : first_answer(request).compared_plans) {
    CHECK(plan.weeks.empty());
    CHECK(plan.passed.empty());
  }
  request.plan_tables = true;
  for (const advice::ComparedPlan& plan : first_answer(request).compared_plans) {
    REQUIRE_FALSE(plan.passed.empty());
    REQUIRE_FALSE(plan.weeks.empty());
    CHECK(plan.passed.front().week_of == make_day(2020, 6, 22));
    CHECK(plan.passed.back().week_of == make_day(2020, 9, 21));
    CHECK(plan.weeks.front().week_of == make_day(2020, 9, 28));
  }
}

TEST_CASE("passed weeks of frozen ground are no weeks that were missed") {
  SiteRequest request = request_on(make_day(2021, 2, 22));
  request.compared_plans = some_plans();
  request.plan_tables = true;
  int frozen = 0;
  int open = 0;
  for (const advice::ComparedPlan& plan : first_answer(request).compared_plans) {
    for (const advice::TreatmentWeek& week : plan.passed) {
      const bool in_frost = make_day(2021, 1, 4) <= week.week_of && week.week_of <= make_day(2021, 1, 11);
      const bool in_fall = week.week_of < make_day(2020, 11, 1);
      for (const treatment::Kind kind : treatment::all_kinds) {
        if (in_frost) CHECK_FALSE(week.of(kind).allowed);
        if (in_fall) CHECK(week.of(kind).allowed);
        frozen += in_frost ? 1 : 0;
        open += in_fall ? 1 : 0;
      }
    }
  }
  CHECK(frozen > 0);
  CHECK(open > 0);
}
