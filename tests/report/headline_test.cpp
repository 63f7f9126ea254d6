// SPDX-License-Identifier: MIT
// The first sentence of an answer, which is all that many will read, and the few lines below it.
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "advice/answer/brief.hpp"
#include "report/advice_text.hpp"
#include "report/made_answers.hpp"
#include "support/said_costs.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using advice::Action;
using advice::TargetAnswer;

namespace {

std::string headline(const TargetAnswer& answer) { return report::headline(course("Course A", {}), answer); }

std::string whole(double value) { return fmt::format("{:.0f}%", value); }

/// Its text, or nothing.
std::string line(const TargetAnswer& answer, const std::string& label) {
  for (const advice::BriefLine& one : answer.brief) {
    if (one.label == label) return one.text;
  }
  return "";
}

std::string all_lines(const TargetAnswer& answer) {
  std::string text;
  for (const advice::BriefLine& one : answer.brief) text += one.text + "\n";
  return text;
}

std::string brief_of(const TargetAnswer& answer) {
  return report::advice_brief(course("Course A", {answer}));
}

std::vector<TargetAnswer> every_action() {
  return {falling(), flat(), good_enough(), early(), gated(), held(), finished(), spread_out(), torn()};
}

bool says_to_treat(const std::string& text) { return holds(text, "Treat this week"); }

}  // namespace

TEST_CASE("the call and its figures say what the headline says, in sentences of their own") {
  for (const TargetAnswer& answer : every_action()) {
    CAPTURE(answer.headline, answer.call, answer.call_figures);
    CHECK(answer.call.ends_with("."));
    CHECK(!holds(answer.call, "expected control"));
    CHECK(answer.call_figures.empty() == !holds(answer.headline, "% in 9 of 10 cases"));
    CHECK((answer.call_figures.empty() || answer.call_figures.ends_with(".")));
    // Letter for letter but for the joint between the two.
    const std::string both = answer.call + answer.call_figures;
    for (const std::string& part :
         {answer.call.substr(0, 12), answer.call_figures.substr(answer.call_figures.size() / 2)})
      CHECK((holds(answer.headline, part.substr(0, part.size() - 1)) && holds(both, part)));
  }
  CHECK(falling().call == "Treat this week with pre and post together.");
  CHECK(falling().call_figures == "Expected control 74%, at least 64% in 9 of 10 cases.");
}

TEST_CASE("the headline names site and grass first, stays on one line and ends in a full stop") {
  for (const TargetAnswer& answer : every_action()) {
    const std::string text = headline(answer);
    CAPTURE(text);
    CHECK(text.starts_with("Course A, annual bluegrass: "));
    CHECK(text.ends_with("."));
    CHECK(text.find('\n') == std::string::npos);
    CHECK(!holds(text, "nan"));
  }
}

TEST_CASE("hand-made tables give the actions they were made for") {
  std::vector<Action> actions;
  for (const TargetAnswer& answer : every_action()) actions.push_back(answer.decision.action);
  CHECK(actions == std::vector<Action>{Action::treat, Action::any_week, Action::any_week, Action::wait,
                                       Action::wait, Action::hold_after_treatment, Action::nothing_left,
                                       Action::no_single_week, Action::scout});
}

TEST_CASE("only the action treat says to treat this week") {
  for (const TargetAnswer& answer : every_action())
    CHECK(says_to_treat(headline(answer)) == (answer.decision.action == Action::treat));
}

TEST_CASE("a headline to act on names the kind with the control of this week, middle and low end") {
  for (const TargetAnswer& answer : {falling(), flat(), good_enough()}) {
    const std::string text = headline(answer);
    const Band<double>& now = answer.weeks.front().week.of(*answer.decision.kind).control;
    CAPTURE(text);
    CHECK(answer.decision.control->middle == now.middle);
    CHECK(holds(text, "pre and post together"));
    CHECK(holds(text, whole(now.middle)));
    CHECK(holds(text, "at least " + whole(now.low)));
  }
}

TEST_CASE("any week names the Sunday until which it holds, and where the best is ahead, the days of it") {
  const TargetAnswer any = flat();
  CHECK(holds(headline(any), short_date(any.decision.best_range->last + Days{6})));
  const TargetAnswer ahead = good_enough();
  REQUIRE(ahead.decision.best_range->first == monday + Days{7});
  CHECK(holds(headline(ahead), short_date(ahead.decision.best_range->first)));
  CHECK(holds(headline(ahead), short_date(ahead.decision.best_range->last + Days{6})));
}

TEST_CASE("a space parts the longest label from its text") {
  TargetAnswer answer = early();
  answer.brief = {{"rule of thumb", "by the 5% rule of thumb this would be pre alone"}};
  CHECK(holds(brief_of(answer), "rule of thumb: by the 5%"));
}

TEST_CASE("wait names the weeks that are waited for and their control, never that of this week") {
  const TargetAnswer answer = early();
  const std::string text = headline(answer);
  CAPTURE(text);
  CHECK(holds(text, "Wait"));
  CHECK(holds(text, short_date(monday + Days{14})));
  CHECK(holds(text, "74%"));
  CHECK(!holds(text, "45%"));
}

TEST_CASE("wait for a gate names the gate and when it is expected to end") {
  const TargetAnswer answer = gated();
  const std::string text = headline(answer);
  CAPTURE(text);
  CHECK(holds(text, "greening up"));
  CHECK(holds(text, short_date(monday + Days{7})));
}

TEST_CASE("after a foliar treatment the headline says when it was and when to look") {
  const std::string text = headline(held());
  CAPTURE(text);
  CHECK(holds(text, short_date(today - Days{10})));
  CHECK(holds(text, short_date(today + Days{4})));
  CHECK(holds(text, short_date(today + Days{18})));
}

TEST_CASE("a second treatment is called second") {
  TargetAnswer answer = falling();
  CHECK(!holds(headline(answer), "second"));
  answer.after = advice::AfterApplication{};
  answer.after->residual_on = today - Days{60};
  answer.after->dose_left_percent = 18.0;
  answer.after->residual_ends = today + Days{20};
  word(answer);
  CHECK(holds(headline(answer), "a second treatment"));
  CHECK(holds(line(answer, "applied"), "18%"));
  CHECK(holds(line(answer, "applied"), short_date(today - Days{60})));
  CHECK(holds(line(answer, "applied"), short_date(today + Days{20})));
}

TEST_CASE("models that disagree are said in the headline itself") {
  TargetAnswer answer = falling();
  answer.models_disagree = "models disagree: 20 to 55% emerged";
  word(answer);
  CHECK(holds(headline(answer), "20 to 55% emerged"));
  CHECK(holds(headline(answer), "scout first"));
  CHECK(holds(headline(torn()), "Scout before you treat"));
}

TEST_CASE("scout still names the kind") { CHECK(holds(headline(torn()), "pre and post together")); }

TEST_CASE("a finished target is one line with the next look") {
  const TargetAnswer answer = finished();
  REQUIRE(answer.next_look);
  CHECK(answer.next_look->date == make_day(2027, 8, 20));
  CHECK(holds(headline(answer), short_date(answer.next_look->date)));
  CHECK(answer.brief.empty());
  CHECK(answer.lead.empty());
  const std::string alone = brief_of(answer);
  CHECK(std::count(alone.begin(), alone.end(), '\n') <= 3);  // with the age of the data
  CHECK(!holds(alone, "fit days"));
}

TEST_CASE("below a headline stand at most eight lines, and no number there is missing") {
  for (TargetAnswer answer : every_action()) {
    answer.decision.late = advice::MondaySpan{monday - Days{21}, monday - Days{14}};
    answer.decision.late_control = {70.0, 80.0, 90.0};
    answer.decision.close_call = advice::KindAndWeek{treatment::Kind::pre, monday, {60.0, 70.0, 80.0}};
    answer.remarks.push_back({"models-differ", "The models differ."});
    word(answer);
    CAPTURE(answer.headline);
    CHECK(answer.brief.size() + 2 <= 8);  // fit days and data age come with the site
    for (const advice::BriefLine& one : answer.brief) {
      CHECK(!one.text.empty());
      CHECK(!holds(one.text, "nan"));
      CHECK(one.text.find('\n') == std::string::npos);
    }
  }
}

TEST_CASE("the cost of waiting in words is the decision's, rounded, and stands below the headline") {
  for (const TargetAnswer& answer : {falling(), flat(), good_enough(), decided(rows({{45, 74, 28}}))}) {
    const std::string words = advice::waiting_words(answer);
    CAPTURE(words);
    CHECK(whole_numbers(words) == costs_of_a_point(answer.decision));
    CHECK(holds(all_lines(answer), words));
  }
  CHECK(costs_of_a_point(falling().decision) == std::vector<int>{4, 8, 14});
  CHECK(holds(advice::waiting_words(flat()), "less than a point"));
  CHECK(holds(advice::waiting_words(decided(rows({{45, 74, 28}}))), "no useful week"));
  for (const TargetAnswer& waiting : {early(), gated()}) CHECK(advice::waiting_words(waiting).empty());
}

TEST_CASE("until names the Sunday after the good-through week, and next what comes after it") {
  const TargetAnswer answer = falling();
  REQUIRE(answer.decision.good_through);
  CHECK(holds(line(answer, "until"), short_date(*answer.decision.good_through + Days{6})));
  REQUIRE(answer.decision.then);
  CHECK(holds(line(answer, "next"), short_date(answer.decision.then->week_of)));
  CHECK(holds(line(answer, "next"), whole(answer.decision.then->control.middle)));
  CHECK(holds(line(answer, "next"), short_date(answer.next_look->date)));
}

TEST_CASE("where a rule of thumb names another kind, one line says so and what it would lose") {
  TargetAnswer answer = falling();
  answer.by_percent = treatment::Kind::post;
  word(answer);
  const std::string text = line(answer, "rule of thumb");
  CAPTURE(text);
  CHECK(holds(text, "post alone"));
  CHECK(holds(text, "80%"));
  CHECK(holds(text, "46 points"));  // 74 against 28
  answer.by_percent = answer.decision.kind;
  word(answer);
  CHECK(line(answer, "rule of thumb").empty());
}

TEST_CASE("with nothing up no share of juveniles is named") {
  TargetAnswer none = early();
  none.emerged_percent = {0.0, 0.2, 0.6};
  none.juvenile_percent = {NAN, NAN, NAN};
  word(none);
  CHECK(!holds(brief_of(none), "uvenile"));
  CHECK(!holds(brief_of(none), "nan"));
}

TEST_CASE("a target that is refused says so and why") {
  TargetAnswer refused = undecided({});
  refused.refusal = Problem{Family::data, "the season's sum has a hole", {}, {}, {}, {}};
  CHECK(holds(headline(refused), "No answer. the season's sum has a hole"));
}

TEST_CASE("control characters of a name do not reach the terminal") {
  for (const TargetAnswer& answer : every_action()) {
    const advice::SiteAnswer named = course("a\x1b[31m\nb", {answer});
    for (const std::string& text : {report::headline(named, answer), report::advice_brief(named),
                                    report::advice_details(named), report::advice_table({{named}})}) {
      CHECK(!holds(text, "\x1b"));
      CHECK(!holds(text, "\nb"));
    }
  }
}
