// SPDX-License-Identifier: MIT
// The course page in every state an answer can be in.
#include <catch2/catch.hpp>

#include "report/advice_json.hpp"
#include "report/made_season.hpp"
#include "report/page/course_page.hpp"
#include "report/page/style_sheet.hpp"
#include "report/seen_page.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using advice::SiteAnswer;
using advice::TargetAnswer;

namespace {

TargetAnswer with_season(TargetAnswer answer) {
  add_season(answer, make_day(2026, 10, 20));
  return answer;
}

std::string page_of(const std::vector<TargetAnswer>& targets) {
  return report::course_page(course("Course A", targets), page_frame());
}

}  // namespace

TEST_CASE("a page is one file that asks for nothing and lets nothing run") {
  const std::string page = page_of({with_season(falling())});
  CHECK(page.starts_with("<!DOCTYPE html>"));
  CHECK(holds(page, std::string{"content=\"default-src 'none'; style-src '"} +
                        std::string{report::style_sheet_hash()}));
  CHECK(times(page, "<style>") == 1);
  CHECK(!holds(page, "<script"));
  CHECK(!holds(page, " style="));
  CHECK(!holds(page, "http:"));
  CHECK(!holds(page, "https:"));
  CHECK(!holds(page, "src="));
  CHECK(well_formed(page));
  CHECK(page.size() < 150000);
}

TEST_CASE("the hash of the style sheet is that of the bytes on the page") {
  const std::string page = page_of({falling()});
  const std::string shown =
      page.substr(page.find("<style>") + 7, page.find("</style>") - page.find("<style>") - 7);
  CHECK(shown == report::style_sheet());
  CHECK(report::style_sheet_hash().size() == std::string{"sha256-"}.size() + 44);
}

TEST_CASE("sections stand in the order they are read in") {
  TargetAnswer target = with_season(falling());
  target.notes.push_back({today - Days{6}, advice::NoteKind::count, "12 seedlings in 10 plots"});
  target.models.push_back({"m", "A model", 1.0, 40.0, {}, ""});
  target.reasons = {"A reason"};
  target.remarks = {{"x", "A doubt"}};
  SiteAnswer site = course("Course A", {target});
  site.priority_warning = "Seed comes first.";
  const std::string text = seen(report::course_page(site, page_frame()));
  std::size_t at = 0;
  for (const char* part :
       {"Course A", "Seed comes first.", "Treat this week", "Expected control 74%", "Of a hundred seedlings",
        "The season so far", "Why", "A reason", "What makes this unsure", "A doubt", "The weeks in figures",
        "A model", "Noted here", "12 seedlings in 10 plots", "Where the figures come from",
        "On seedlings &amp; soils", "Care", "The label is the law."}) {
    CAPTURE(part);
    const std::size_t next = text.find(part, at);
    REQUIRE(next != std::string::npos);
    at = next;
  }
}

TEST_CASE("a page says what the answer says and no other figures") {
  const TargetAnswer target = with_season(falling());
  const std::string text = seen(page_of({target}));
  CHECK(holds(text, target.call));
  CHECK(holds(text, target.call_figures));
  CHECK(holds(text, target.lead));
  for (const advice::BriefLine& line : target.brief) CHECK((line.label == "why" || holds(text, line.text)));
}

TEST_CASE("every state has a page: headline, no number that is none, all tags closed") {
  for (const TargetAnswer& answer :
       {falling(), flat(), good_enough(), early(), gated(), held(), torn(), spread_out()}) {
    for (const bool season : {true, false}) {
      TargetAnswer target = answer;
      if (season && target.decision.action != advice::Action::no_single_week)
        add_season(target, make_day(2026, 10, 20));
      const std::string page = page_of({target});
      CAPTURE(target.call, season);
      CHECK(holds(seen(page), target.call));
      CHECK(well_formed(page));
      CHECK(!std::regex_search(seen(page), std::regex{"\\b(nan|inf)\\b"}));
      CHECK(times(page, "role=\"img\"") == times(page, "</title>") - 1);  // the page's own title
    }
  }
}

TEST_CASE("a finished grass is one line and has no picture of its own") {
  const std::string page = page_of({with_season(finished()), with_season(falling())});
  CHECK(times(page, "<section class=\"target\"") == 1);
  CHECK(holds(seen(page), "Nothing left to time this season"));
  CHECK(holds(page, "Other grasses here"));
  const std::string alone = page_of({with_season(finished())});
  CHECK(times(alone, "class=\"plate") == 0);
  CHECK(holds(alone, "closed alone"));
}

TEST_CASE("a grass without an answer says why") {
  TargetAnswer refused;
  refused.target = "XXXXX";
  refused.refusal = Problem{Family::request, "this target is not known", {}, "XXXXX", "POAAN", {}};
  const std::string text = seen(page_of({refused}));
  CHECK(holds(text, "XXXXX"));
  CHECK(holds(text, "No answer. this target is not known"));
}

TEST_CASE("no single week: no plate, no weeks, the call and the doubts") {
  const std::string page = page_of({with_season(spread_out())});
  CHECK(holds(seen(page), "No single week stands out here"));
  CHECK(well_formed(page));
}

TEST_CASE("what users type is shown as text") {
  SiteAnswer site = course("<script>alert(1)</script> & \"Söhne\" 日本 =1+1", {with_season(falling())});
  site.targets.front().notes.push_back({today, advice::NoteKind::reading, "<b>\"62\"</b>"});
  const std::string page = report::course_page(site, page_frame());
  CHECK(!holds(page, "<script"));
  CHECK(!holds(page, "<b>\"62\""));
  CHECK(holds(page, "<h1>&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;Söhne&quot; 日本 =1+1</h1>"));
  CHECK(well_formed(page));
}

TEST_CASE("of a hundred seedlings the counts add up to a hundred") {
  for (const double up : {0.0, 0.4, 33.3, 49.5, 99.6, 100.0}) {
    TargetAnswer target = with_season(falling());
    target.emerged_percent = {up, up, up};
    const std::string page = page_of({target});
    const std::size_t table = page.find("<caption>A hundred seedlings");
    const std::string rows = page.substr(table, page.find("</table>", table) - table);
    static const std::regex cell{"<td>(\\d+)</td>"};
    int sum = 0;
    int cells = 0;
    for (auto it = std::sregex_iterator{rows.begin(), rows.end(), cell}; it != std::sregex_iterator{}; ++it) {
      sum += std::stoi((*it)[1]);
      ++cells;
    }
    CAPTURE(up);
    CHECK(cells == 5);
    CHECK(sum == 100);
  }
}

TEST_CASE("past seasons are dots with what is usual beside them, and may be lacking") {
  TargetAnswer target = with_season(falling());
  CHECK(!holds(page_of({target}), "class=\"dots\""));
  add_past_seasons(target);
  const std::string page = page_of({target});
  CHECK(times(page, "h0") == 2 * 12);
  CHECK(holds(page, "4 days later than usual"));
  CHECK(holds(page, "usually Oct 6"));
}

TEST_CASE("seedlings whose ages are not known are drawn as up") {
  TargetAnswer target = falling();
  add_season(target, make_day(2026, 10, 20), false);
  const std::string page = page_of({target});
  CHECK(holds(page, ">up</text>"));
  CHECK(!holds(page, "up, young"));
}

TEST_CASE("units are the reader's own") {
  SiteAnswer site = course("Course A", {with_season(falling())});
  site.place.elevation_m = 310.0;
  site.spray = advice::SprayWeek{};
  site.spray->fit_days = 1;
  site.spray->days.push_back({today, true, "", Rain::from_mm(9.1), 3.0, 5.0});
  site.facts.us_units = true;
  const std::string us = seen(report::course_page(site, page_frame()));
  for (const char* part : {"1017 ft", "0.36 in", "7 mph", "70 F", "1 inch", "2 in"}) {
    CAPTURE(part);
    CHECK(holds(us, part));
  }
  for (const char* unit : {" C,", " cm", " mm", " m/s", "310 m"}) {
    CAPTURE(unit);
    CHECK(!holds(us, unit));
  }
  site.facts.us_units = false;
  const std::string metric = seen(report::course_page(site, page_frame()));
  for (const char* part : {"310 m", "9.1 mm", "3 m/s", "21 C", "25 mm", "5 cm"}) {
    CAPTURE(part);
    CHECK(holds(metric, part));
  }
  CHECK(!holds(metric, " mph"));
}

TEST_CASE("days ahead say fit, not fit or not known, each with its reason") {
  SiteAnswer site = course("Course A", {with_season(falling())});
  site.spray = advice::SprayWeek{};
  site.spray->fit_days = 1;
  site.spray->days.push_back({today, false, "too windy", {}, {}, {}});
  site.spray->days.push_back({today + Days{1}, {}, "", {}, {}, {}});
  site.spray->days.push_back({today + Days{2}, true, "", Rain::from_mm(0.0), {}, 6.0});
  const std::string text =
      std::regex_replace(seen(report::course_page(site, page_frame())), std::regex{"\\s+"}, " ");
  CHECK(holds(text, "Thu 15 not fit rain not known too windy"));
  CHECK(holds(text, "Fri 16 not known rain not known"));
  CHECK(holds(text, "Sat 17 fit dry 6 usable hours"));
}

TEST_CASE("the plan is named, or the classes of plan stand in its place") {
  TargetAnswer target = with_season(falling());
  target.other_plans.push_back({true, treatment::FoliarClass::contact, target.decision});
  CHECK(holds(seen(page_of({target})), "long, contact"));
  target.plan.given = true;
  target.plan.words = "prodiamine, residual of 12 to 24 weeks";
  const std::string text = seen(page_of({target}));
  CHECK(holds(text, "For the plan:"));
  CHECK(holds(text, "prodiamine, residual of 12 to 24 weeks."));
  CHECK(!holds(text, "long, contact"));
}
