// SPDX-License-Identifier: MIT
// The page of many courses, and what is counted over them.
#include "report/page/portfolio_page.hpp"

#include <catch2/catch.hpp>

#include "advice/answer/portfolio.hpp"
#include "report/made_season.hpp"
#include "report/page/course_list_script.hpp"
#include "report/seen_page.hpp"

using namespace soilclock;
using namespace soilclock::tests;
using advice::SiteAnswer;
using advice::TargetAnswer;

namespace {

std::string portfolio_of(const std::vector<SiteAnswer>& sites) {
  std::vector<std::string> files;
  for (std::size_t i = 0; i < sites.size(); ++i)
    files.push_back(sites[i].targets.empty() ? "" : "page-" + std::to_string(i) + ".html");
  return report::portfolio_page(sites, files, page_frame());
}

}  // namespace

TEST_CASE("the portfolio has the most urgent course first and says which have no page") {
  SiteAnswer failed = course("Course C", {});
  failed.problems.push_back({Family::data, "no usable day", {}, {}, {}, {}});
  const std::string page =
      portfolio_of({failed, course("Course B", {flat()}), course("Course A", {falling()})});
  const std::string text = seen(page);
  CHECK(text.find("Course A") < text.find("Course B"));
  CHECK(text.find("Course B") < text.find("Course C"));
  CHECK(holds(page, "<a href=\"page-2.html\">Course A</a>"));
  CHECK(!holds(page, "<a href=\"\""));
  CHECK(holds(text, "no usable day"));
  CHECK(well_formed(page));
}

TEST_CASE("a row says what the decision says") {
  TargetAnswer target = falling();
  add_season(target, make_day(2026, 10, 20));
  const std::string text = seen(portfolio_of({course("Course A", {target})}));
  CHECK(holds(text, "1 of 1 course calls for treatment this week."));
  CHECK(holds(text, "treat this week"));
  const advice::Decision& decision = target.decision;
  CHECK(holds(text, short_date(decision.best_range->first) + " to " +
                        short_date(decision.best_range->last + Days{6})));
  CHECK(holds(text, std::to_string(std::lround(decision.control->middle)) + "%"));
  CHECK(holds(text, std::to_string(std::lround(decision.control->low)) + "%"));
}

TEST_CASE("each grass has a table of its own, finished ones a line") {
  TargetAnswer other = falling();
  other.target = "DIGIS";
  other.title = "smooth crabgrass";
  const std::string page =
      portfolio_of({course("Course A", {falling(), other}), course("Course B", {finished()})});
  CHECK(times(page, "<table") == 2);
  CHECK(holds(seen(page), "Not in the tables"));
  CHECK(holds(seen(page), "Course B , Annual bluegrass: Nothing left"));
  CHECK(!holds(seen(portfolio_of({course("Course A", {falling()})})), "Not in the tables"));
}

TEST_CASE("the portfolio says what changed since the answers before, and nothing where none is known") {
  TargetAnswer same = falling();
  same.changed = advice::ChangesSince{today - Days{7}, {}};
  TargetAnswer urgent = falling();
  urgent.changed = advice::ChangesSince{today - Days{9},
                                        {{advice::ChangeKind::newly_urgent, "treat this week (was: wait)"}}};
  CHECK(!holds(seen(portfolio_of({course("Course A", {falling()})})), "hanged since"));
  CHECK(holds(seen(portfolio_of({course("Course A", {same})})), "Nothing changed since Oct 8"));
  const std::string page = portfolio_of({course("Course A", {same}), course("Course B", {urgent})});
  CHECK(holds(seen(page), "Changed since Oct 8"));
  CHECK(holds(seen(page), "Course B , Annual bluegrass since Oct 6: treat this week (was: wait)"));
  CHECK(well_formed(page));
}

TEST_CASE("the page of a hundred courses has at most 600 kB") {
  std::vector<SiteAnswer> sites;
  for (int i = 0; i < 100; ++i) {
    TargetAnswer target = falling();
    add_season(target, make_day(2026, 10, 20));
    TargetAnswer other = target;
    other.target = "DIGIS";
    other.title = "smooth crabgrass";
    sites.push_back(course("Course " + std::to_string(i + 1), {target, other}));
  }
  const std::string page = portfolio_of(sites);
  CHECK(times(page, "<svg class=\"strip") >= 200);
  CHECK(page.size() <= 600'000);
}

TEST_CASE("the policy of the portfolio allows its own script and nothing else") {
  const std::string page = portfolio_of({course("Course A", {falling()})});
  CHECK(holds(page, "script-src '" + std::string{report::course_list_script_hash()} + "'"));
  CHECK(times(page, "<script>") == 1);
  CHECK(!holds(page, "http://"));
  CHECK(!holds(page, "https://"));
}

TEST_CASE("names are text in the portfolio, whatever is in them") {
  const std::string evil = "<script>alert(1)</script> & \"S\u00f6hne\" =1+1";
  const std::string page = portfolio_of({course(evil, {falling()})});
  CHECK(times(page, "<script>") == 1);  // the page's own
  CHECK(holds(page, "&lt;script&gt;alert(1)&lt;/script&gt; &amp; "));
  CHECK(well_formed(page));
}

TEST_CASE("a course counts once, by the most pressing of its grasses") {
  SiteAnswer failed = course("F", {});
  const std::vector<SiteAnswer> sites{course("A", {flat(), falling()}), course("B", {finished(), flat()}),
                                      course("C", {early()}), course("D", {finished()}), failed};
  const advice::Portfolio all = advice::portfolio_of(sites);
  CHECK(all.courses == 5);
  CHECK(all.treat == 1);
  CHECK(all.good_now == 1);
  CHECK(all.wait == 1);
  CHECK(all.finished == 1);
  CHECK(all.unanswered == 1);
  CHECK(all.headline == "1 of 5 courses calls for treatment this week.");
  CHECK(advice::portfolio_of(std::span{sites}.subspan(1, 1)).headline ==
        "No hurry anywhere; 1 of 1 course can treat now.");
  CHECK(advice::portfolio_of(std::span{sites}.subspan(3, 1)).headline == "Nothing left to time this season.");
}

TEST_CASE("less than a point lost is not written as one") {
  CHECK(advice::points_lost(0.2) == "0");
  CHECK(advice::points_lost(0.9) == "<1");
  CHECK(advice::points_lost(1.0) == "1");
  CHECK(advice::points_lost(2.6) == "3");
}
