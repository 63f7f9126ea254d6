// SPDX-License-Identifier: MIT
// Teaching sheets from a made comparison: whole pages, names as text, no figure that is none.
#include "report/page/handout_page.hpp"

#include <catch2/catch.hpp>

#include "advice/comparison/season_dates.hpp"
#include "report/made_season.hpp"
#include "report/page/handout_style.hpp"
#include "report/seen_page.hpp"

using namespace soilclock;
using namespace soilclock::tests;

namespace {

advice::SeasonRow made_row(int year, bool open) {
  advice::SeasonRow row{std::to_string(year), open, {}};
  row.season.season_start = make_day(year, 6, 21);
  const Day half = make_day(year, 10, 5) + Days{year % 5};
  for (Day day = monday_of(row.season.season_start); day < make_day(year, 12, 31); day += one_week) {
    const auto up = share_up(static_cast<double>((day - half).count()));
    row.season.weekly.push_back({day, up, 0.4 * up, 0.6 * up});
  }
  row.season.up = {{5, half - Days{26}}, {25, half - Days{10}}, {50, half}, {80, half + Days{12}}};
  row.season.rule_days = {{"fall-70f", open ? std::nullopt : std::optional{half - Days{14}}}};
  row.season.best_week = monday_of(half);
  row.season.best_kind = treatment::Kind::pre_post;
  row.season.best_control = Band<double>{61.0, 74.0, 85.0};
  return row;
}

/// Seasons of one course with the calls and what-ifs that belong to them.
advice::SiteComparison made_comparison(const std::string& name) {
  advice::SiteComparison site;
  site.answer.name = name;
  site.answer.on = today;
  site.answer.facts.us_units = true;
  advice::SoilRuleStatus rule;
  rule.id = "fall-70f";
  rule.title = "Below 70 F";
  advice::TargetComparison target;
  target.target = "POAAN";
  target.title = "Annual bluegrass";
  target.yardstick_percent = 5;
  for (int year = 2022; year < 2026; ++year) target.seasons.push_back(made_row(year, false));
  target.seasons.push_back(made_row(2026, true));
  target.dates = advice::season_dates(target.seasons, {rule});
  target.calls =
      advice::call_misses(target.seasons, {rule}, season_of(today, SeasonKind::fall, Hemisphere::north),
                          shipped_catalogue().practice.comparison);
  advice::WhatIf as_it_is{"as-it-is", "the site as it is", {}, {}, 0, 0, {}, {}, {}};
  as_it_is.half_up = {make_day(2026, 9, 28), make_day(2026, 10, 6), make_day(2026, 10, 20)};
  target.what_ifs = advice::WhatIfTable{make_day(2026, 9, 1), {as_it_is}};
  target.yardstick_band = Band<int>{-14, 0, 9};
  advice::word_finding(target, make_day(2026, 9, 15), "1.8 F");
  site.targets.push_back(target);
  return site;
}

std::string handout_of(const advice::SiteComparison& site) {
  return report::handout_page(site, site.targets.front(), page_frame());
}

}  // namespace

TEST_CASE("a teaching sheet is one whole page whose styles are allowed by their hashes") {
  const std::string page = handout_of(made_comparison("Copper Heron"));
  CHECK(well_formed(page));
  CHECK(times(page, "<h1") == 1);
  CHECK(times(page, "<script") == 0);
  CHECK(times(page, std::string{report::handout_style_hash()}) == 1);
  CHECK(times(page, std::string{report::handout_style()}) == 1);
  CHECK(times(page, "style=") == 0);
  CHECK(times(seen(page), "nan") == 0);
  // The stack and the dots, wide and for the phone, each with its words.
  CHECK(times(page, "role=\"img\"") == 4);
  CHECK(times(page, "<title") == 1 + 4);
  const std::string text = seen(page);
  for (const char* said :
       {"By the models, Sep 15 was late for annual bluegrass in 4 of 4 seasons", "14 days before and 9 after",
        "5 seasons, one above another", "Asked on Sep 1, 2026"}) {
    INFO(said);
    CHECK(text.find(said) != std::string::npos);
  }
}

TEST_CASE("names stand as text on teaching sheets, of one course and of several") {
  const advice::SiteComparison strange = made_comparison(strange_name);
  const std::string several =
      report::sites_handout_page({strange, made_comparison(std::string(60, 'n'))}, "POAAN", page_frame());
  for (const std::string& page : {handout_of(strange), several}) {
    CHECK(well_formed(page));
    CHECK(times(page, "<script") == 0);
    CHECK(times(page, "&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;") >= 1);
  }
  CHECK(times(seen(several), "2 courses, one season of annual bluegrass") == 1);
  CHECK(report::sites_handout_page({strange}, "DIGIS", page_frame()).empty());
}

TEST_CASE("a first season has no past to compare with, and the sheet says so") {
  advice::SiteComparison site = made_comparison("Copper Heron");
  advice::TargetComparison& target = site.targets.front();
  target.seasons = {target.seasons.back()};
  target.what_ifs.reset();
  target.yardstick_band.reset();
  target.calls =
      advice::call_misses(target.seasons, {}, season_of(today, SeasonKind::fall, Hemisphere::north),
                          shipped_catalogue().practice.comparison);
  advice::word_finding(target, make_day(2026, 9, 15), "1.8 F");
  const std::string page = handout_of(site);
  CHECK(well_formed(page));
  CHECK(times(page, "no past season of annual bluegrass to compare with") >= 1);
  CHECK(times(page, "role=\"img\"") == 2);
}
