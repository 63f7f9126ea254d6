// SPDX-License-Identifier: MIT
// Many sites: one row for each grass still open, the most urgent first, on one screen; the same rows as CSV.
#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>

#include "advice/answer/urgency.hpp"
#include "report/advice_csv.hpp"
#include "report/advice_json.hpp"
#include "report/advice_text.hpp"
#include "report/json_values.hpp"
#include "report/made_answers.hpp"
#include "support/text_lines.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using advice::SiteAnswer;
using advice::TargetAnswer;

namespace {

/// Where the row of a site stands in a text, counted in lines; -1: it has none.
int row_of(const std::string& text, const std::string& site) {
  const auto lines = lines_of(text);
  const auto found = std::find_if(lines.begin(), lines.end(),
                                  [&](const std::string& line) { return line.starts_with(site + " "); });
  return found == lines.end() ? -1 : static_cast<int>(found - lines.begin());
}

/// Urgent, finished, calm, held: in this order of the input.
std::vector<SiteAnswer> four() {
  return {course("Calm", {flat()}), course("Done", {finished()}), course("Urgent", {falling()}),
          course("Held", {held()})};
}

/// Forty courses with two grasses each: every third open grass is finished.
std::vector<SiteAnswer> forty() {
  std::vector<SiteAnswer> sites;
  for (int i = 0; i < 40; ++i) {
    TargetAnswer open = i % 2 == 0 ? falling() : flat();
    open.remarks.push_back({"models-differ", i % 4 == 0 ? "The models differ." : "Few past seasons."});
    word(open);
    TargetAnswer done = finished();
    done.target = "DIGIS";
    done.title = "Smooth crabgrass";
    sites.push_back(course(fmt::format("Course number {}", i), {open, done}));
  }
  return sites;
}

report::Json json_of(const std::vector<SiteAnswer>& sites) {
  report::AnswerFrame frame;
  frame.on = today;
  return report::Json::parse(report::advice_json(sites, frame));
}

}  // namespace

TEST_CASE("the most urgent grass stands first, and those with nothing left are counted below") {
  const std::string table = report::advice_table(four());
  CAPTURE(table);
  CHECK(row_of(table, "Urgent") == 1);
  CHECK(row_of(table, "Calm") > 1);
  CHECK(row_of(table, "Held") > 1);
  CHECK(row_of(table, "Done") == -1);
  CHECK(holds(table, "Nothing left to time this season: 1 "));
}

TEST_CASE("a row of the table holds the decision's own figures") {
  const TargetAnswer answer = falling();
  const auto lines = lines_of(report::advice_table({{course("A", {answer}), course("B", {finished()})}}));
  const std::string& row = lines.at(1);
  CAPTURE(row);
  for (const std::string& part :
       {std::string{"POAAN"}, std::string{"treat"}, std::string{"pre+post"}, std::string{"74% (64)"},
        short_date(answer.decision.best_range->first), short_date(*answer.decision.good_through + Days{6})}) {
    CHECK(holds(row, part));
  }
  std::string costs;
  for (const auto& cost : answer.decision.cost_of_waiting)
    costs += fmt::format("{}{:.0f}", costs.empty() ? "" : "/", *cost);
  CHECK(row.ends_with(costs));
}

TEST_CASE("forty sites with two grasses fit one screen of 60 lines, closing words with them") {
  const std::vector<SiteAnswer> sites = forty();
  report::AnswerFrame frame;
  for (const advice::Caution& caution : shipped_catalogue().practice.cautions) {
    if (caution.brief) frame.brief_cautions.push_back(caution.text);
  }
  const auto lines = lines_of(report::advice_table(sites) + report::closing_text(frame));
  CHECK(lines.size() <= 60);
  CHECK(lines.size() > 40);
  for (const std::string& line : lines) CHECK(line.size() <= 130);
}

TEST_CASE("a doubt that many sites share is said once, with how many share it") {
  const std::string table = report::advice_table(forty());
  CHECK(holds(table, "(30x)"));
  CHECK(holds(table, "(10x)"));
  CHECK(table.find("Few past seasons.") == table.rfind("Few past seasons."));
}

TEST_CASE("sites that failed keep their problem below the table") {
  SiteAnswer failed = course("Broken", {});
  failed.problems.push_back({Family::request, "there is no such file", {"x.csv", {}, {}, {}}, {}, {}, {}});
  CHECK(holds(report::advice_table({{course("A", {flat()}), failed}}), "there is no such file"));
}

TEST_CASE("CSV has one row a site and grass in the order of the table, finished ones last") {
  const auto lines = lines_of(report::advice_csv(four()));
  REQUIRE(lines.size() == 5);
  const auto cells = [](const std::string& line) { return std::count(line.begin(), line.end(), ','); };
  for (const std::string& line : lines) CHECK(cells(line) == cells(lines.front()));
  CHECK(lines[1].starts_with("1,Urgent,"));
  CHECK(lines[2].starts_with("2,"));
  CHECK(lines[3].starts_with("3,"));
  CHECK(lines[4].starts_with(",Done,"));
  CHECK(!holds(report::advice_csv(four()), "nan"));
}

TEST_CASE("JSON keeps the order of the input and ranks as the table does") {
  const std::vector<SiteAnswer> sites = four();
  const report::Json json = json_of(sites);
  std::vector<std::string> names;
  for (const auto& site : json.at("sites")) names.push_back(site.at("site").get<std::string>());
  CHECK(names == std::vector<std::string>{"Calm", "Done", "Urgent", "Held"});
  const auto rank = [&](std::size_t site) {
    return json.at("sites")[site].at("targets")[0].at("urgency_rank");
  };
  CHECK(rank(2) == 1);
  CHECK(rank(1).is_null());
  CHECK(rank(0).is_number());
  CHECK(rank(3).is_number());
  CHECK(rank(0) != rank(3));
}

TEST_CASE("a refused grass has no decision in JSON and no figures in CSV") {
  TargetAnswer refused = undecided({});
  refused.refusal = Problem{Family::data, "the season's sum has a hole", {}, {}, {}, {}};
  const std::vector<SiteAnswer> sites{course("A", {refused})};
  CHECK(json_of(sites).at("sites")[0].at("targets")[0].at("decision").is_null());
  const std::string row = lines_of(report::advice_csv(sites)).at(1);
  CHECK(holds(row, "the season's sum has a hole"));
  CHECK(!holds(row, "40.0"));  // what was emerging is no answer
}
