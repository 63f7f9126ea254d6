// SPDX-License-Identifier: MIT
#include "advice/answer/target_decision.hpp"

#include <catch2/catch.hpp>

#include "made_up_question.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;
using treatment::Kind;

namespace {

treatment::PlanEntry planned_entry(const std::string& text) {
  const auto read = treatment::read_plan_entry(text, shipped_catalogue().actives);
  if (!read) FAIL(describe(read.error()));
  return *read;
}

}  // namespace

TEST_CASE("the decision is that of the weeks shown, from this week to the last useful one") {
  Said said;
  const TargetAnswer& answer = said.answered();
  CHECK(answer.last_useful_week == make_day(2021, 2, 22));  // March 1 is a Monday: not included
  REQUIRE(!answer.weeks.empty());
  CHECK(answer.weeks.front().week.week_of == monday_of(asked_on));
  CHECK(answer.weeks.back().week.week_of == answer.last_useful_week);
  Decision decision = answer.decision;
  decision.late.reset();  // judged by the weeks before
  CHECK(shown(decision) == shown(decided(said.table())));
  CHECK(answer.decision.action != Action::no_answer);
  REQUIRE(answer.next_look);
  CHECK(answer.next_look->date >= asked_on);
  CHECK(answer.next_look->date > make_day(2020, 1, 1));
}

TEST_CASE("without a plan the classes of plans are shown, with one they are not") {
  Said nothing;
  CHECK(nothing.answered().other_plans.size() == 4);
  CHECK(!nothing.answer.plan.given);
  CHECK(!nothing.answer.plan.missing_part_gains);
  Said plan;
  plan.plan.entries = {planned_entry("prodiamine"), planned_entry("glyphosate")};
  CHECK(plan.answered().other_plans.empty());
  CHECK(plan.answer.plan.given);
  CHECK(plan.answer.plan.entries == std::vector<std::string>{"prodiamine", "glyphosate"});
}

TEST_CASE("a plan without foliar part allows pre only, and says what a post would add where most is up") {
  Said said;
  said.plan.foliar = treatment::FoliarClass::none;
  const TargetAnswer& answer = said.answered();
  for (const WeekRow& row : answer.weeks) {
    CHECK(!row.week.of(Kind::pre_post).allowed);
    CHECK(!row.week.of(Kind::post).allowed);
  }
  CHECK((!answer.decision.kind || answer.decision.kind == Kind::pre));
  REQUIRE(answer.plan.missing_part_gains);
  CHECK(*answer.plan.missing_part_gains >= shipped_rules().adding_part_worth);
}

TEST_CASE("resistant plants take from the part that they withstand") {
  Said susceptible;
  Said resistant;
  for (Said* said : {&susceptible, &resistant})
    said->plan.entries = {planned_entry("prodiamine"), planned_entry("glyphosate")};
  resistant.resistant = {{9, Fraction::of(1.0)}};
  susceptible.answered();
  resistant.answered();
  const Weeks before = susceptible.table();
  const Weeks after = resistant.table();
  for (std::size_t week = 0; week < before.size(); ++week) {
    CHECK(after[week].of(Kind::post).control.high == 0.0);
    CHECK(after[week].of(Kind::pre).control.middle == before[week].of(Kind::pre).control.middle);
  }
  CHECK(before.front().of(Kind::post).control.middle > 0.0);
}

TEST_CASE("green-up of warm-season turf ends the season no later than the practice day") {
  Said cool;
  cool.turf_facts.species = treatment::TurfSpecies::cool_season;
  Said warm;
  warm.turf_facts.species = treatment::TurfSpecies::bermudagrass;
  cool.answered();
  warm.answered();
  CHECK(*warm.answer.last_useful_week <= *cool.answer.last_useful_week);
  CHECK(*warm.answer.last_useful_week > asked_on);
  CHECK(cool.answer.last_useful_week == make_day(2021, 2, 22));
}

TEST_CASE("weeks before a season are in its table and nothing is done in them") {
  Said said;
  said.site.on = make_day(2020, 6, 10);  // a Wednesday; the season begins on Jun 21, a Sunday
  const TargetAnswer& answer = said.answered();
  REQUIRE(answer.weeks.size() > 3);
  CHECK(answer.weeks[0].week.week_of == make_day(2020, 6, 8));
  CHECK(answer.weeks[1].week.week_of == make_day(2020, 6, 15));
  CHECK(answer.weeks[2].week.week_of == make_day(2020, 6, 22));
  for (int week : {0, 1}) {
    for (const KindInWeek& kind : answer.weeks[static_cast<std::size_t>(week)].week.kinds)
      CHECK(!kind.allowed);
  }
  CHECK(answer.weeks[2].week.of(Kind::pre).allowed);
  CHECK(answer.decision.action == Action::wait);
}

TEST_CASE("after the last useful week nothing is left") {
  Said said;
  said.site.on = make_day(2021, 3, 10);
  const TargetAnswer& answer = said.answered();
  CHECK(answer.weeks.empty());
  CHECK(answer.decision.action == Action::nothing_left);
}

TEST_CASE(
    "an application noted before today acts on the weeks, one noted for today or another season does not") {
  const auto noted_on = [](Day day) {
    Said said;
    SiteApplication application;
    application.day = day;
    application.kind = Kind::pre_post;
    application.watered_in_after_days = 1;
    said.log.applications = {application};
    said.answered();
    return said;
  };
  Said nothing;
  nothing.answered();
  const Said september = noted_on(make_day(2020, 9, 10));
  CHECK(september.answer.after);
  CHECK(september.answer.after->residual_on == make_day(2020, 9, 10));
  CHECK(*september.table().front().score(Kind::pre_post) < *nothing.table().front().score(Kind::pre_post));
  CHECK(!september.answer.decision.late);  // weeks before an application are not compared with
  for (const Day other : {asked_on, asked_on + Days{3}, make_day(2019, 10, 10)}) {
    const Said said = noted_on(other);
    CHECK(!said.answer.after);
    CHECK(shown(said.table()) == shown(nothing.table()));
  }
}

TEST_CASE("seed to come leaves post") {
  Said said;
  said.turf_facts.overseed_on = asked_on + Days{14};
  const TargetAnswer& answer = said.answered();
  CHECK(!answer.weeks.front().week.of(Kind::pre).allowed);
  CHECK(!answer.weeks.front().week.of(Kind::pre_post).allowed);
  CHECK(answer.weeks.front().week.of(Kind::post).allowed);
  REQUIRE(!answer.weeks.front().gates.empty());
  CHECK(answer.weeks.front().gates.front().reason == treatment::GateReason::overseeding);
}

TEST_CASE("the last useful week of a summer annual is four weeks after 90 percent, middle") {
  TargetRun run = made_up().run();
  run.season = season_of(make_day(2021, 6, 1), SeasonKind::summer, Hemisphere::north);
  Said said;
  DecisionInputs inputs = said.inputs();
  inputs.run = &run;
  TargetAnswer answer;
  answer.milestones = {{50, {{}, make_day(2021, 5, 1), {}}}, {90, {{}, make_day(2021, 6, 9), {}}}};
  CHECK(last_useful_week(answer, inputs) == monday_of(make_day(2021, 7, 7)));
  answer.milestones.clear();
  CHECK(last_useful_week(answer, inputs) == monday_of(make_day(2021, 12, 31)));
}

TEST_CASE("south of the equator the fall season ends half a year later") {
  TargetRun run = made_up().run();
  run.season = season_of(make_day(2021, 4, 1), SeasonKind::fall, Hemisphere::south);
  Said said;
  said.turf_facts.species = treatment::TurfSpecies::cool_season;
  DecisionInputs inputs = said.inputs();
  inputs.run = &run;
  CHECK(last_useful_week({}, inputs) == monday_of(make_day(2021, 8, 31)));
}
