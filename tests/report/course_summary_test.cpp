// SPDX-License-Identifier: MIT
// A course with areas: what they come to in one sentence, and how text, JSON, pages, map and message show it.
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "advice/answer/course_summary.hpp"
#include "advice/answer/portfolio.hpp"
#include "report/advice_text.hpp"
#include "report/made_answers.hpp"
#include "report/message.hpp"
#include "report/page/course_page.hpp"
#include "report/page/portfolio_page.hpp"
#include "report/seen_page.hpp"
#include "report/sites_geojson.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using advice::SiteAnswer;
using advice::TargetAnswer;
using MapJson = nlohmann::json;

namespace {

/// Half of the seedlings up on that day, by all models.
TargetAnswer half_up_on(TargetAnswer answer, Day day) {
  answer.milestones = {{50, {day - Days{5}, day, day + Days{5}}}};
  return answer;
}

/// An area of the course "Copper Heron".
SiteAnswer area(const std::string& name, const std::vector<std::string>& among,
                std::vector<TargetAnswer> targets) {
  SiteAnswer answer = course("Copper Heron, " + name, std::move(targets));
  answer.site = "copper-heron/" + name;
  answer.place = {35.6, -83.1, {}};
  answer.facts.area = advice::AreaFacts{"copper-heron", "Copper Heron", name, among};
  return answer;
}

SiteAnswer failed_area(const std::string& name, const std::vector<std::string>& among) {
  SiteAnswer answer = area(name, among, {});
  answer.problems.push_back({Family::data, "the probe file is empty", {}, {}, {}, {}});
  return answer;
}

const std::vector<std::string> two{"fairway", "tee"};
const std::vector<std::string> three{"fairway", "tee", "green"};
const Day fairway_half = make_day(2026, 9, 28);
const Day tee_half = make_day(2026, 10, 10);

/// The fairway is to be treated, the tee has two weeks.
std::vector<SiteAnswer> split_course() {
  return {area("fairway", two, {half_up_on(falling(), fairway_half)}),
          area("tee", two, {half_up_on(early(), tee_half)})};
}

std::string sentence_of(const std::vector<SiteAnswer>& answers) {
  const auto courses = advice::course_summaries(answers);
  REQUIRE(courses.size() == 1);
  REQUIRE(courses.front().grasses.size() == 1);
  return courses.front().grasses.front().sentence;
}

report::AnswerFrame frame_of(const std::vector<SiteAnswer>& answers) {
  report::AnswerFrame frame = frame_with({"Read the label."});
  frame.courses = advice::course_summaries(answers);
  return frame;
}

}  // namespace

TEST_CASE("areas that stand alike are named together, with the days between the first and the last") {
  CHECK(
      sentence_of({area("fairway", three, {half_up_on(falling(), fairway_half)}),
                   area("tee", three, {half_up_on(falling(), tee_half)}),
                   area("green", three, {half_up_on(falling(), fairway_half + Days{1})})}) ==
      "Treat all three areas this week with pre+post; half up 12 days apart, fairway first (Sep 28) and tee "
      "last (Oct 10).");
  CHECK(sentence_of({area("fairway", two, {half_up_on(early(), tee_half)}),
                     area("tee", two, {half_up_on(early(), tee_half)})}) ==
        "Wait on both areas, best from Oct 26 with pre+post; half up on the same day, Oct 10.");
  CHECK(sentence_of({area("tee", {"tee"}, {half_up_on(falling(), tee_half)})}) ==
        "Treat tee this week with pre+post.");
}

TEST_CASE("a split course says which areas to treat, which to wait on and how far apart they stand") {
  CHECK(sentence_of(split_course()) ==
        "Treat fairway this week with pre+post; wait on tee, best from Oct 26 with pre+post; half up 12 "
        "days apart, fairway first (Sep 28) and tee last (Oct 10).");
  const auto grass = advice::course_summaries(split_course()).front().grasses.front();
  CHECK(grass.half_up_apart == 12);
  CHECK(grass.lines.size() == 3);
}

TEST_CASE("every standing has its words, the most pressing first") {
  const std::vector<std::string> all{"a", "b", "c", "d", "e", "f", "g"};
  const std::string said =
      sentence_of({area("a", all, {finished()}), area("b", all, {held()}), area("c", all, {early()}),
                   area("d", all, {torn()}), area("e", all, {good_enough()}), area("f", all, {flat()}),
                   area("g", all, {falling()})});
  CAPTURE(said);
  CHECK(said.starts_with(
      "Treat g this week with pre+post; any week will do for f, through Nov 8 with pre+post; "
      "good enough now on e, best from Oct 19 with pre+post; scout d before you treat; wait "
      "on c, best from Oct 26 with pre+post; hold b until survivors show; nothing left to "
      "time on a"));
  CHECK(sentence_of({area("fairway", two, {finished()}), area("tee", two, {finished()})}) ==
        "Nothing left to time on any area.");
  CHECK(holds(sentence_of({area("fairway", two, {spread_out()}), area("tee", two, {spread_out()})}),
              "No single week on any area"));
}

TEST_CASE("areas that wait for different weeks each say theirs, and a long list is cut") {
  const TargetAnswer later =
      decided(rows({{40, 45, 5}, {41, 50, 20}, {41, 60, 20}, {40, 74, 30}, {38, 73.5, 33}}));
  CHECK(sentence_of({area("fairway", two, {half_up_on(early(), fairway_half)}),
                     area("tee", two, {half_up_on(later, tee_half)})})
            .starts_with("Wait on fairway (best from Oct 26 with pre+post) and tee (best from Nov 2 with "
                         "pre+post); half up"));
  std::vector<std::string> names;
  for (const char letter : std::string{"abcdefg"}) names.emplace_back(1, letter);
  std::vector<SiteAnswer> answers;
  for (const std::string& name : names)
    answers.push_back(area(name, names, {half_up_on(name == "g" ? early() : falling(), tee_half)}));
  CHECK(sentence_of(answers).starts_with("Treat a, b, c, d and 2 more this week with pre+post; wait on g"));
}

TEST_CASE("an area without an answer is said, and one of all of them too") {
  CHECK(sentence_of({area("fairway", two, {half_up_on(falling(), fairway_half)}), failed_area("tee", two)}) ==
        "Treat fairway this week with pre+post; no answer for tee.");
  const auto none =
      advice::course_summaries(std::vector{failed_area("fairway", two), failed_area("tee", two)});
  REQUIRE(none.size() == 1);
  CHECK(none.front().grasses.front().sentence == "No answer for any area.");
  CHECK(none.front().grasses.front().target.empty());
  TargetAnswer refused = falling();
  refused.refusal = Problem{Family::data, "no spring in the record", {}, {}, {}, {}};
  CHECK(holds(sentence_of({area("fairway", two, {falling()}), area("tee", two, {refused})}),
              "no answer for tee"));
}

TEST_CASE("where models stand apart on the date, areas are told apart by what is up") {
  TargetAnswer torn_dates = half_up_on(early(), tee_half);
  torn_dates.milestones.front().either = {{tee_half - Days{20}, 0.5, {"m"}},
                                          {tee_half + Days{20}, 0.5, {"n"}}};
  torn_dates.emerged_percent = {5.0, 12.0, 30.0};
  const std::vector<SiteAnswer> answers{area("fairway", two, {half_up_on(falling(), fairway_half)}),
                                        area("tee", two, {torn_dates})};
  CHECK(sentence_of(answers).ends_with("; 40% up on fairway and 12% on tee."));
  CHECK(!advice::course_summaries(answers).front().grasses.front().half_up_apart);
}

TEST_CASE("overseeding comes before everything, and half a course has no summary") {
  std::vector<SiteAnswer> answers = split_course();
  answers[1].priority_warning = "overseeding is planned for Oct 20, 2026.";
  CHECK(sentence_of(answers).starts_with("Overseeding comes first on tee; treat fairway this week"));
  answers.pop_back();
  CHECK(advice::course_summaries(answers).empty());
  CHECK(advice::course_summaries(std::vector{course("A", {falling()})}).empty());
}

TEST_CASE("a grass asked for in one area alone is summed up over that area") {
  TargetAnswer crabgrass = falling();
  crabgrass.target = "DIGIS";
  crabgrass.title = "Smooth crabgrass";
  std::vector<SiteAnswer> answers = split_course();
  answers[1].targets.push_back(crabgrass);
  const auto courses = advice::course_summaries(answers);
  REQUIRE(courses.front().grasses.size() == 2);
  CHECK(courses.front().grasses[1].sentence == "Treat tee this week with pre+post.");
}

TEST_CASE("text, page, map and message show the summary of a course with areas") {
  std::vector<SiteAnswer> answers = split_course();
  answers.push_back(course("Millrace", {flat()}));
  const report::AnswerFrame frame = frame_of(answers);
  const std::string start = "Treat fairway this week with pre+post; wait on tee";
  CHECK(report::courses_text(frame.courses).starts_with("Copper Heron, annual bluegrass: " + start));
  CHECK(report::courses_text({}).empty());
  const std::string table = report::advice_table(answers);
  CHECK(holds(table, "Copper Heron, fairway "));
  CHECK(holds(table, "Copper Heron, tee "));

  const std::string list =
      seen(report::portfolio_page(answers, std::vector<std::string>{"a.html", "b.html", "c.html"}, frame));
  CHECK(holds(list, "Copper Heron, annual bluegrass: " + start));
  CHECK(holds(list, "1 of 2 courses calls for treatment this week."));
  CHECK(holds(list, "Annual bluegrass, 2 courses"));
  CHECK(holds(seen(report::course_page(answers[1], frame)), "annual bluegrass: " + start));
  CHECK(!holds(seen(report::course_page(answers[2], frame)), "All areas"));

  const MapJson map = MapJson::parse(report::sites_geojson(answers, frame.courses));
  REQUIRE(map.at("features").size() == 2);  // a point a course: areas would hide one another
  const MapJson& course = map.at("features")[0].at("properties");
  CHECK(course.at("site") == "copper-heron");
  CHECK(course.at("name") == "Copper Heron");
  CHECK(course.at("action") == "treat");
  CHECK(course.at("headline").get<std::string>().starts_with(start));
  REQUIRE(course.at("targets").size() == 2);
  CHECK(course.at("targets")[1].at("area") == "tee");
  CHECK(course.at("targets")[1].at("action") == "wait");
  CHECK(map.at("features")[1].at("properties").at("targets")[0].at("area").is_null());

  CHECK(report::message(frame.courses.front(), frame) ==
        "Copper Heron, annual bluegrass, Oct 15, 2026\n"
        "Treat fairway this week with pre+post.\n"
        "Wait on tee, best from Oct 26 with pre+post.\n"
        "Half up 12 days apart, fairway first (Sep 28) and tee last (Oct 10).\n"
        "Read the label.\n");
}

TEST_CASE("the table gives way in the course's name, so that its areas can be told apart") {
  std::vector<SiteAnswer> answers{area("front nine fairways", two, {falling()}),
                                  area("back nine fairways", two, {flat()})};
  for (SiteAnswer& answer : answers) answer.facts.area->course_name = "Royal and Ancient Copper Heron";
  const std::string table = report::advice_table(answers);
  CHECK(holds(table, "front nine fairways"));
  CHECK(holds(table, "back nine fairways"));
}
