// SPDX-License-Identifier: MIT
// The first sentence of an answer, which is all that many will read.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "report/advice_csv.hpp"
#include "report/advice_text.hpp"

using namespace soilclock;
using advice::SiteAnswer;
using advice::State;
using advice::TargetAnswer;

namespace {

const Day monday = make_day(2026, 10, 12);

SiteAnswer site() {
  SiteAnswer answer;
  answer.site = "a";
  answer.name = "Course A";
  answer.on = monday + Days{3};
  return answer;
}

/// 40 % up, half of them juvenile; the best week is `weeks` from now, losing 4 points a week.
TargetAnswer target(State state, int weeks) {
  TargetAnswer answer;
  answer.target = "POAAN";
  answer.title = "Annual bluegrass";
  answer.state = state;
  answer.emerged_percent = {20.0, 40.0, 60.0};
  answer.juvenile_percent = {30.0, 50.0, 70.0};
  advice::ReachAnswer reach;
  treatment::WeekReach this_week{};
  this_week.week_of = monday;
  this_week.points = {Band<double>{30.0, 45.0, 60.0}, Band<double>{62.0, 74.0, 88.0},
                      Band<double>{10.0, 28.0, 40.0}};
  reach.reach.weeks.push_back(this_week);
  treatment::BestWeek best{};
  best.kind = treatment::Kind::pre_post;
  best.week_of = monday + Days{7 * weeks};
  best.points = {62.0, 74.0, 88.0};
  best.window_first = monday + Days{7 * std::max(0, weeks - 1)};
  best.window_last = monday + Days{7 * (weeks + 1)};
  best.cost_of_waiting[0] = 4.0;
  reach.best = best;
  answer.reach = reach;
  return answer;
}

std::string headline(const TargetAnswer& answer) { return report::headline(site(), answer); }

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("the headline names site and grass first, and ends in a full stop") {
  for (const State state : {State::hold, State::pre, State::pre_and_post, State::post, State::second_pre,
                            State::dormant_season, State::stop, State::no_single_window}) {
    for (const int weeks : {0, 2}) {
      const std::string text = headline(target(state, weeks));
      CAPTURE(text);
      CHECK(text.starts_with("Course A, annual bluegrass: "));
      CHECK(text.ends_with("."));
      CHECK(text.find('\n') == std::string::npos);
    }
  }
}

TEST_CASE("when this is the best week the headline says treat, with reach and the price of waiting") {
  const std::string text = headline(target(State::pre_and_post, 0));
  CHECK(holds(text, "treat this week, pre+post"));
  CHECK(holds(text, "74 of 100"));
  CHECK(holds(text, "62"));
  CHECK(holds(text, "40 % are up, 50 % of those juvenile"));
  CHECK(holds(text, "a week's delay costs 4"));
}

TEST_CASE("when another week is best the headline names it and what this week calls for") {
  const std::string text = headline(target(State::pre, 2));
  CHECK(holds(text, "the best week is that of 26 Oct with pre+post, reaching about 74 of 100"));
  CHECK(holds(text, "this week would call for a residual alone (pre) and reach 45 (30)"));
  CHECK(!holds(text, "treat this week"));
}

TEST_CASE("a week within the window says how long there is time") {
  const std::string text = headline(target(State::pre_and_post, 1));
  CHECK(holds(text, "this week is as good as any until the week of 26 Oct"));
}

TEST_CASE("the kind and the reach of a headline belong together") {
  // The week calls for post although pre+post would reach more: the figure must be that of post.
  const std::string text = headline(target(State::post, 0));
  CHECK(holds(text, "treat this week, post"));
  CHECK(holds(text, "28 of 100"));
  CHECK(!holds(text, "74 of 100"));
}

TEST_CASE("with nothing up no share of juveniles is named") {
  TargetAnswer early = target(State::pre, 2);
  early.emerged_percent = {0.0, 0.2, 0.6};
  early.juvenile_percent = {NAN, NAN, NAN};
  CHECK(!holds(headline(early), "juvenile"));
  CHECK(!holds(headline(early), "nan"));
}

TEST_CASE("a treatment noted lately is named before anything is called for") {
  TargetAnswer treated = target(State::hold, 0);
  treated.treated_on = monday - Days{3};
  CHECK(holds(headline(treated), "hold: treated on 9 Oct"));
}

TEST_CASE("every state has its own words") {
  CHECK(holds(headline(target(State::hold, 0)), "hold"));
  CHECK(holds(headline(target(State::pre, 2)), "pre"));
  CHECK(holds(headline(target(State::post, 2)), "post"));
  CHECK(holds(headline(target(State::second_pre, 2)), "second pre"));
  CHECK(holds(headline(target(State::dormant_season, 2)), "dormancy"));
  CHECK(holds(headline(target(State::stop, 0)), "stop"));
  CHECK(holds(headline(target(State::no_single_window, 0)), "no single week can be named"));
}

TEST_CASE("neither hold, stop nor no single window ever says to treat this week") {
  for (const State state : {State::hold, State::stop, State::no_single_window}) {
    CHECK(!holds(headline(target(state, 0)), "treat this week"));
  }
}

TEST_CASE("a target that is refused says so and why") {
  TargetAnswer refused = target(State::hold, 0);
  refused.refusal = Problem{Family::data, "the season's sum has a hole", {}, {}, {}, {}};
  CHECK(holds(headline(refused), "no answer. the season's sum has a hole"));
}

TEST_CASE("control characters of a name do not reach the terminal") {
  SiteAnswer named = site();
  named.name = "a\x1b[31m\nb";
  const std::string text = report::headline(named, target(State::pre, 1));
  CHECK(!holds(text, "\x1b"));
  CHECK(!holds(text, "\n"));
}

TEST_CASE("a table row keeps the best week beside the state, and leaves it empty where there is none") {
  SiteAnswer answer = site();
  answer.targets = {target(State::pre_and_post, 1), target(State::no_single_window, 0)};
  answer.targets[1].reach.reset();
  const std::string table = report::advice_csv({answer});
  CHECK(holds(table, ",2026-10-19,pre+post,74.0,62.0,4.0,,\n"));
  CHECK(table.ends_with(",,,,,,\n"));
}
