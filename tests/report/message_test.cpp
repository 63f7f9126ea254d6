// SPDX-License-Identifier: MIT
#include "report/message.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "made_answers.hpp"
#include "report/text_columns.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

const report::AnswerFrame& message_frame() {
  static const report::AnswerFrame shipped = [] {
    std::vector<std::string> brief;
    for (const advice::Caution& caution : shipped_catalogue().practice.cautions) {
      if (caution.brief) brief.push_back(caution.text);
    }
    return frame_with(std::move(brief));
  }();
  return shipped;
}

std::vector<std::string> message_lines(const advice::SiteAnswer& site) {
  std::vector<std::string> lines;
  std::istringstream in{report::message(site, message_frame())};
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

}  // namespace

TEST_CASE("a message says site, what to do, until when, what is next, and care") {
  const auto lines = message_lines(course("Copper Heron", {falling()}));
  REQUIRE(lines.size() == 5);
  CHECK(lines[0] == "Copper Heron, annual bluegrass, Oct 15, 2026");
  CHECK(lines[1] == "Treat this week with pre+post: control 74% (at least 64%).");
  CHECK(lines[2] ==
        "Good through Oct 25; waiting costs up to 4 points in one week, 8 in two weeks, 14 in three weeks.");
  CHECK(holds(lines[3], "Next: "));
  CHECK(holds(lines[3], "look again "));
  CHECK(holds(lines[4], "The label is the law"));
  CHECK(!lines[4].ends_with("..."));
}

TEST_CASE("whatever the answer, a message has at most five lines of at most a hundred columns") {
  advice::SiteAnswer warned = course(unbroken_name, {falling()});
  warned.priority_warning =
      "overseeding is planned for Oct 20, 2026: a residual applied before it can kill the seed. Check the "
      "seeding interval on the label before anything below.";
  advice::SiteAnswer second = course(strange_name, {gated()});
  second.targets[0].after = advice::AfterApplication{};
  word(second.targets[0]);
  advice::SiteAnswer lost = course(strange_name + strange_name + strange_name, {});
  lost.problems.push_back({Family::data, std::string(300, 'x'), {}, {}, {}, {}});
  advice::SiteAnswer refused = course("Copper Heron", {falling()});
  refused.targets[0].refusal = Problem{Family::data, "the season's sum has a hole", {}, {}, {}, {}};
  std::vector<advice::SiteAnswer> sites{warned, second, lost, refused};
  for (const auto& target :
       {falling(), flat(), good_enough(), early(), gated(), held(), finished(), spread_out(), torn()})
    sites.push_back(course(strange_name, {target}));
  for (const advice::SiteAnswer& site : sites) {
    const auto lines = message_lines(site);
    CAPTURE(report::message(site, message_frame()));
    CHECK(lines.size() >= 2);
    CHECK(lines.size() <= 5);
    for (const std::string& line : lines) {
      CHECK(report::columns_of(line) <= 100);
      CHECK(!line.empty());
    }
    CHECK(holds(lines.back(), "The label is the law"));
    CHECK(holds(lines.front(), "2026"));
  }
  CHECK(holds(message_lines(warned)[1], "First: overseeding is planned for Oct 20, 2026"));
  CHECK(holds(message_lines(warned)[0], unbroken_name));
  CHECK(holds(message_lines(second)[0], strange_name));
  CHECK(message_lines(course("A", {finished()}))[1] == "Nothing left to time this season.");
  CHECK(message_lines(course("A", {gated()}))[1] == "Wait: turf is greening up, until about Oct 19.");
  CHECK(holds(message_lines(course("A", {gated()}))[2], "Best weeks: pre+post from Oct 19 to "));
  CHECK(message_lines(refused)[1] == "No answer: the season's sum has a hole");
}

TEST_CASE("what changed since an earlier answer is one more line of a message, and none where nothing did") {
  advice::TargetAnswer target = falling();
  target.changed = advice::ChangesSince{today - Days{7}, {}};
  CHECK(message_lines(course("Copper Heron", {target})) ==
        message_lines(course("Copper Heron", {falling()})));
  target.changed->changes = {{advice::ChangeKind::newly_urgent, "treat this week (was: wait)"},
                             {advice::ChangeKind::kind_changed, "pre+post (was: pre)"}};
  const auto lines = message_lines(course("Copper Heron", {target}));
  REQUIRE(lines.size() == 6);
  CHECK(lines[4] == "Changed since Oct 8: treat this week (was: wait); pre+post (was: pre).");
}

TEST_CASE("a site's message is about its most urgent grass") {
  advice::TargetAnswer crabgrass = falling();
  crabgrass.title = "Smooth crabgrass";
  CHECK(holds(message_lines(course("A", {flat(), crabgrass}))[0], "smooth crabgrass"));
  CHECK(holds(message_lines(course("A", {finished(), flat()}))[0], "annual bluegrass"));
}

TEST_CASE("a line is cut after a clause, else after a word, else within one") {
  CHECK(report::fitted("short", 10) == "short");
  CHECK(report::fitted("one clause; another one", 15) == "one clause");
  CHECK(report::fitted("One sentence. Another one.", 20) == "One sentence.");
  CHECK(report::fitted("several words that do not fit", 20) == "several words...");
  CHECK(report::fitted(std::string(60, 'W'), 20) == std::string(17, 'W') + "...");
  // A wide letter takes two columns and is never cut in half.
  const std::string wide = "\u65e5\u672c\u65e5\u672c\u65e5\u672c";
  CHECK(report::columns_of(wide) == 12);
  CHECK(report::fitted(wide, 10) == "\u65e5\u672c\u65e5...");
  CHECK(report::columns_of("S\u00f6hne") == 5);
  CHECK(report::columns_of("So\u0308hne") == 5);
  CHECK(report::fitted("a\nb", 10) == "a?b");
}
