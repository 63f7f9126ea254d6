// SPDX-License-Identifier: MIT
// The decision case by case: one small table for each that a manager may meet.
#include <catch2/catch.hpp>

#include "advice/answer/brief.hpp"
#include "advice/answer/words.hpp"
#include "advice/decision/decision.hpp"
#include "advice/decision/week_gates.hpp"
#include "decision_tables.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;
using treatment::Kind;

namespace {

std::vector<double> for_weeks(int count, double score) {
  return std::vector<double>(static_cast<std::size_t>(count), score);
}

bool is(const std::optional<KindAndWeek>& cell, Kind kind, int week, double score) {
  return cell && cell->kind == kind && cell->week_of == monday(week) &&
         0.5 * (cell->control.low + cell->control.middle) == score;
}

bool is(const std::optional<MondaySpan>& span, int first, int last) {
  return span && span->first == monday(first) && span->last == monday(last);
}

/// An answer about a table on its first Monday, in words.
TargetAnswer worded(const Weeks& table, std::vector<treatment::Gate> gates_now = {}) {
  TargetAnswer answer;
  answer.decision = decided(table);
  for (const TreatmentWeek& week : table) answer.weeks.push_back({week, {}});
  if (!answer.weeks.empty()) answer.weeks.front().gates = std::move(gates_now);
  answer.emerged_percent = {10.0, 20.0, 30.0};
  answer.juvenile_percent = {90.0, 95.0, 100.0};
  return answer;
}

WordContext context() {
  const Catalogue& catalogue = shipped_catalogue();
  return {monday(0), &catalogue.practice, &catalogue.gates, &catalogue.control_of("POAAN")};
}

std::string line(const TargetAnswer& answer, const std::string& label) {
  for (const BriefLine& brief : answer.brief) {
    if (brief.label == label) return brief.text;
  }
  return {};
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("pre now 75 and pre+post 79 in eight weeks: pre, any week, then pre+post, and the 79 is shown") {
  const Decision d = decided(weeks(
      {{75, 75, 75, 74.5, 74.3, 74.3, 71, 66, 60, 50}, {72, 74, 76, 76.5, 77, 77.5, 78, 78.5, 79, 78}, {}}));
  CHECK(d.action == Action::any_week);
  CHECK(d.kind == Kind::pre);
  CHECK(is(d.best_range, 0, 5));
  CHECK(d.good_through == monday(5));
  CHECK(is(d.then, Kind::pre_post, 6, 78));
  CHECK(d.then_as_good);
  CHECK(is(d.close_call, Kind::pre_post, 8, 79));
}

TEST_CASE("pre 70 and pre+post 75.1 later: a close call that names both") {
  const Decision d = decided(weeks({{70, 66, 60}, {70, 73, 75.1}, {}}));
  CHECK(d.kind == Kind::pre_post);
  CHECK(d.action == Action::wait);
  CHECK(is(d.close_call, Kind::pre, 0, 70));
  // Four to six points, both ends included; nearer or further there is nothing to name.
  CHECK(decided(weeks({{71}, {75}, {}})).close_call);
  CHECK(decided(weeks({{69}, {75}, {}})).close_call);
  CHECK(!decided(weeks({{71.25}, {75}, {}})).close_call);
  CHECK(!decided(weeks({{68.75}, {75}, {}})).close_call);
}

TEST_CASE("flat all season: any week, the whole range and its end") {
  const Decision d = decided(weeks({for_weeks(12, 70), for_weeks(12, 72), for_weeks(12, 20)}));
  CHECK(d.action == Action::any_week);
  CHECK(d.kind == Kind::pre);
  CHECK(is(d.best_range, 0, 11));
  CHECK(d.good_through == monday(11));
  CHECK(!d.then);
  CHECK(d.cost_of_waiting[2] == 0.0);
  // What comes after a flat run of pre that ends.
  Scores ending{for_weeks(12, 70), for_weeks(12, 72), {}};
  std::fill(ending.pre.begin() + 6, ending.pre.end(), 30.0);
  CHECK(decided(weeks(ending)).good_through == monday(5));
  CHECK(is(decided(weeks(ending)).then, Kind::pre_post, 6, 72));
}

TEST_CASE("two peaks with a dip under two points are one range") {
  const Decision d = decided(weeks({{70, 68.5, 70, 60}, {}, {}}));
  CHECK(is(d.best_range, 0, 2));
  CHECK(d.good_through == monday(2));
  CHECK(d.action == Action::treat);  // three weeks would be too long
  // The dip does not end good through where the kind is not the best of all, either.
  const Decision below = decided(weeks({{70, 68.5, 70, 60}, {}, {74.5}}));
  CHECK(below.kind == Kind::pre);
  CHECK(is(below.best_range, 0, 2));
  CHECK(below.good_through == monday(2));
}

TEST_CASE("two peaks with a deeper dip: the higher peak") {
  const Decision d = decided(weeks({{68, 60, 70, 60}, {}, {}}));
  CHECK(is(d.best_range, 2, 2));
  CHECK(d.action == Action::any_week);  // good enough now, best in two weeks
  CHECK(!calls_for_treatment(d, monday(0)));
  CHECK(is(decided(weeks({{70, 60, 70, 60}, {}, {}})).best_range, 0, 0));  // the earlier one on a tie
}

TEST_CASE("a cold week now and a mild one later: wait only for five points, else good enough now") {
  CHECK(decided(weeks({{}, {}, {51, 56}})).action == Action::wait);
  const Decision d = decided(weeks({{}, {}, {51.25, 56}}));
  CHECK(d.action == Action::any_week);
  CHECK(is(d.best_range, 1, 1));
}

TEST_CASE("a cold week inside the range is bridged only when it is two points below at most") {
  CHECK(is(decided(weeks({{}, {}, {60, 58.25, 60}})).best_range, 0, 2));
  CHECK(is(decided(weeks({{}, {}, {60, 57.75, 60}})).best_range, 0, 0));
  // The ends of a range are within a point, however shallow the dip.
  CHECK(is(decided(weeks({{}, {}, {60, 58.5, 58.5}})).best_range, 0, 0));
}

TEST_CASE("a gate now: wait, the gate and its end named; nothing left when no week comes after it") {
  const Weeks table = weeks({{}, {gated, gated, 60, 58}, {gated, gated, 40, 40}});
  TargetAnswer answer =
      worded(table, {{treatment::GateReason::frozen_ground, true, true, true, std::nullopt}});
  CHECK(answer.decision.action == Action::wait);
  CHECK(answer.decision.kind == Kind::pre_post);
  CHECK(is(answer.decision.best_range, 2, 2));
  word_decision(answer, context());
  INFO(answer.headline);
  CHECK(says(answer.headline, "Wait"));
  CHECK(says(answer.headline,
             treatment::sentence(answer.weeks.front().gates.front(), shipped_catalogue().gates)));
  CHECK(says(answer.headline, "until about Sep 21"));
  const Decision closed = decided(weeks({{gated, gated}, {gated, gated}, {gated, gated}}));
  CHECK(closed.action == Action::nothing_left);
  CHECK(closed.urgency == 0.0);
}

TEST_CASE("a gate ends best range and good through") {
  const Decision d = decided(weeks({{70, 70, gated, 70}, {}, {}}));
  CHECK(is(d.best_range, 0, 1));
  CHECK(d.good_through == monday(1));
  CHECK(is(d.then, Kind::pre, 3, 70));
}

TEST_CASE("a gate that stops foliar parts only leaves pre, and the kind is chosen again") {
  Weeks table = weeks({for_weeks(5, 60), for_weeks(5, 75), for_weeks(5, 50)});
  CHECK(decided(table).kind == Kind::pre_post);
  for (TreatmentWeek& week : table) apply({{}, false, true}, week);
  CHECK(decided(table).kind == Kind::pre);
  CHECK(decided(table).action == Action::any_week);
}

TEST_CASE("a residual forbidden for seeding leaves post, now or later") {
  Weeks now = weeks({for_weeks(3, 60), for_weeks(3, 75), {52, 50, 45}});
  for (TreatmentWeek& week : now) apply({{}, true, false}, week);
  CHECK(decided(now).kind == Kind::post);
  CHECK(decided(now).action == Action::treat);
  Weeks later = weeks({for_weeks(3, 60), for_weeks(3, 75), {20, 40, 52}});
  for (TreatmentWeek& week : later) apply({{}, true, false}, week);
  CHECK(decided(later).kind == Kind::post);
  CHECK(decided(later).action == Action::wait);
}

TEST_CASE("a plan without a part has no kind that needs it") {
  Weeks table = weeks({for_weeks(2, 60), for_weeks(2, 75), for_weeks(2, 50)});
  treatment::TreatmentParts only_residual;
  only_residual.residual.push_back({});
  for (TreatmentWeek& week : table) forbid_lacking(only_residual, week);
  CHECK(table.front().score(Kind::pre));
  CHECK(!table.front().score(Kind::pre_post));
  CHECK(!table.front().score(Kind::post));
  for (TreatmentWeek& week : table) forbid_lacking({}, week);
  CHECK(decided(table).action == Action::nothing_left);
}

TEST_CASE("post flat for weeks: treat, never wait for a flat future") {
  const Decision d = decided(weeks({for_weeks(20, 10), for_weeks(20, 62), for_weeks(20, 60)}));
  CHECK(d.kind == Kind::post);
  CHECK(d.action != Action::wait);
  CHECK(calls_for_treatment(d, monday(0)));
}

TEST_CASE("the last week of the table: treat, no cost of waiting, and it says so") {
  TargetAnswer answer = worded(weeks({{50}, {70}, {60}}));
  CHECK(answer.decision.action == Action::treat);
  CHECK(answer.decision.kind == Kind::pre_post);
  for (const auto& cost : answer.decision.cost_of_waiting) CHECK(!cost);
  word_decision(answer, context());
  CHECK(says(answer.headline, "Treat this week with pre and post together"));
  CHECK(says(answer.lead, "No useful week after it."));
  // So near the end of a flat season, too: in the third last week waiting three weeks is no choice any more.
  CHECK(decided(weeks({{60, 60, 60}, {}, {}})).action == Action::treat);
  CHECK(decided(weeks({{60, 60, 60, 60}, {}, {}})).action == Action::any_week);
}

TEST_CASE("a low end of 0 and a middle of 40 score 20, and the spread is said") {
  Weeks table = weeks({{20, 10}, {}, {}});
  table.front().of(Kind::pre).control = {0.0, 40.0, 80.0};
  CHECK(table.front().score(Kind::pre) == 20.0);
  TargetAnswer answer = worded(table);
  word_decision(answer, context());
  INFO(answer.headline);
  CHECK(says(answer.headline, "expected control 40%, at least 0% in 9 of 10 cases"));
}

TEST_CASE("members in two humps: the decision as it is, and the headline says that models disagree") {
  const Weeks table = weeks({{70, 60}, {}, {}});
  TargetAnswer answer = worded(table);
  answer.models_disagree = "models disagree: 20 to 55% emerged";
  word_decision(answer, context());
  CHECK(shown(answer.decision) == shown(decided(table)));
  CHECK(says(answer.headline, "Models disagree: 20 to 55% emerged; scout first."));
}

TEST_CASE("after an application: nothing left below five points, else the same rules with 'second'") {
  CHECK(decided(weeks({{4, 3}, {4.75, 4}, {1, 1}})).action == Action::nothing_left);
  TargetAnswer answer = worded(weeks({{12, 8}, {14, 10}, {6, 6}}));
  answer.after = AfterApplication{};
  word_decision(answer, context());
  INFO(answer.headline);
  CHECK(answer.decision.action == Action::treat);
  CHECK(says(answer.headline, "a second treatment, pre alone"));
  CHECK(kind_words(Kind::pre, false) == "pre alone");
}

TEST_CASE("without a plan: the same rules, and one line on what a plan changes") {
  const Weeks table = weeks({{70, 60}, {}, {}});
  TargetAnswer answer = worded(table);
  answer.other_plans.push_back({false, treatment::FoliarClass::contact, decided(weeks({{}, {60, 66}, {}}))});
  word_decision(answer, context());
  CHECK(shown(answer.decision) == shown(decided(table)));
  INFO(line(answer, "plan"));
  CHECK(says(line(answer, "plan"), "none given"));
  CHECK(says(line(answer, "plan"), "Short residual: pre+post from Sep 14 70%"));
}

TEST_CASE("an empty table has no answer") {
  const Decision d = decided({});
  CHECK(d.action == Action::no_answer);
  CHECK(!d.kind);
  CHECK(name(d.action) == "no-answer");
}

TEST_CASE("an extra part must earn five points, a treatment five at all") {
  CHECK(decided(weeks({{70}, {75}, {}})).kind == Kind::pre);
  CHECK(decided(weeks({{70}, {75.25}, {}})).kind == Kind::pre_post);
  CHECK(decided(weeks({{}, {75}, {70}})).kind == Kind::post);
  CHECK(decided(weeks({{}, {75}, {69.75}})).kind == Kind::pre_post);
  CHECK(decided(weeks({{}, {50, 60}, {50, 60}})).kind == Kind::pre_post);  // a tie, post not good now
  CHECK(decided(weeks({{5}, {}, {}})).kind == Kind::pre);
  CHECK(decided(weeks({{4.75}, {}, {}})).action == Action::nothing_left);
  // A foliar of the future is never a reason to hold a residual.
  CHECK(decided(weeks({{70, 60}, {72, 74}, {10, 74}})).kind == Kind::pre);
}

TEST_CASE("the cost of waiting and urgency: this week against what is left, a gate now included") {
  const Decision d = decided(weeks({{70, 68, 60, 40}, {71, 69, 62, 50}, {}}));
  CHECK(d.action == Action::treat);
  CHECK(d.cost_of_waiting[0] == 1.0);
  CHECK(d.cost_of_waiting[1] == 8.0);
  CHECK(d.cost_of_waiting[2] == 20.0);
  CHECK(d.urgency == 21.0);
  const Decision held = decided(weeks({{gated, 68, 60, 40}, {gated, 69, 62, 50}, {}}));
  CHECK(held.action == Action::wait);
  CHECK(!held.cost_of_waiting[0]);
  CHECK(held.urgency == 19.0);
}

TEST_CASE("waiting that costs a point in any of three weeks is a hurry, less is none") {
  CHECK(decided(weeks({{70, 69, 69, 69}, {}, {}})).action == Action::treat);
  CHECK(decided(weeks({{70, 69.25, 69.25, 69.25}, {}, {}})).action == Action::any_week);
  CHECK(decided(weeks({{70, 70, 70, 69}, {}, {}})).action == Action::treat);
  // Another kind that is as good by then takes the hurry away.
  CHECK(decided(weeks({{70, 69, 69, 69}, {66, 69.5, 69.5, 69.5}, {}})).action == Action::any_week);
}

TEST_CASE("the best weeks have passed: when they were and what they gave") {
  const Weeks left = weeks({{}, {62, 60}, {}});
  Weeks passed = weeks({{}, {60, 72, 71.5, 66}, {}});
  for (TreatmentWeek& week : passed) week.week_of -= Days{28};
  const Decision d = decide(left, passed, shipped_rules());
  CHECK(is(d.late, -3, -2));
  CHECK(0.5 * (d.late_control.low + d.late_control.middle) == 72.0);
  CHECK(d.action == decided(left).action);
  CHECK(!decide(weeks({{}, {67}, {}}), passed, shipped_rules()).late);  // five points: not late yet
}

TEST_CASE("somebody who does as told acts on treat, and on any week once the best weeks have begun") {
  const auto called = [](const Scores& scores) {
    return calls_for_treatment(decided(weeks(scores)), monday(0));
  };
  CHECK(called({{70, 60, 50}, {}, {}}));         // treat
  CHECK(called({for_weeks(8, 70), {}, {}}));     // any week, and this is one of the best
  CHECK(!called({{68, 69, 70.5, 70}, {}, {}}));  // good enough now: a permission, not a call
  CHECK(!called({{60, 70}, {}, {}}));            // wait
  CHECK(!called({{gated, 70}, {}, {}}));         // a gate
  CHECK(!called({{4, 4}, {}, {}}));              // nothing left
  CHECK(!calls_for_treatment(Decision{}, monday(0)));
  Decision scout = decided(weeks({{70, 60}, {}, {}}));
  scout.action = Action::scout;
  CHECK(!calls_for_treatment(scout, monday(0)));
  // The permission becomes a call when the best weeks have come.
  const Decision ahead = decided(weeks({{68, 69, 70.5, 70}, {}, {}}));
  CHECK(ahead.action == Action::any_week);
  CHECK(calls_for_treatment(ahead, ahead.best_range->first));
}

TEST_CASE("every action has its word") {
  CHECK(name(Action::treat) == "treat");
  CHECK(name(Action::any_week) == "any-week");
  CHECK(name(Action::wait) == "wait");
  CHECK(name(Action::hold_after_treatment) == "hold-after-treatment");
  CHECK(name(Action::nothing_left) == "nothing-left");
  CHECK(name(Action::no_single_week) == "no-single-week");
  CHECK(name(Action::scout) == "scout");
}

TEST_CASE(
    "a close call says what each is good for at least, and a part that adds nothing is not counted up") {
  TargetAnswer answer = worded(weeks({{70, 70, 60}, {70.25, 73, 75}, {}}));
  word_decision(answer, context());
  REQUIRE(answer.decision.kind == Kind::pre);
  CHECK(line(answer, "close call") ==
        "pre gets 74% (at least 66%), pre+post from Sep 21 gets 79% (at least 71%)");
  CHECK(line(answer, "parts").empty());  // a quarter of a point
}

TEST_CASE("where no single week stands out the first reason says why") {
  TargetAnswer answer = worded(weeks({{70}, {}, {}}));
  answer.decision = {};
  answer.decision.action = Action::no_single_week;
  answer.reasons = {"Soil never gets too warm here.", "Scout."};
  word_decision(answer, context());
  CHECK(line(answer, "why") == "Soil never gets too warm here.");
}
