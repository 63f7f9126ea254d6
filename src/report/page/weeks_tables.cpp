// SPDX-License-Identifier: MIT
// The weeks in figures: what the pictures show, for reading one by one and for those who do not see them.
#include <fmt/format.h>

#include <cmath>

#include "advice/answer/season_weeks.hpp"
#include "core/number_text.hpp"
#include "core/unit_words.hpp"
#include "report/page/page_parts.hpp"
#include "report/page/plate.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

/// The weeks around today go on paper; the screen has room for all.
constexpr int paper_weeks_back = 1;
constexpr int paper_weeks_ahead = 6;

bool on_paper(Day week_of, Day on) {
  return week_of >= monday_of(on) - paper_weeks_back * one_week &&
         week_of <= monday_of(on) + paper_weeks_ahead * one_week;
}

bool is_best(const TargetAnswer& target, Day week_of) {
  const auto& best = target.decision.best_range;
  return best && week_of >= best->first && week_of <= best->last;
}

void start_row(Markup& page, const SiteAnswer& site, const TargetAnswer& target, Day week_of) {
  std::string classes = is_best(target, week_of) ? "best" : "";
  if (!on_paper(week_of, site.on)) classes += classes.empty() ? "more" : " more";
  page.open("tr", {{classes.empty() ? "" : "class", classes}});
}

/// "35" and "(12 to 56)", which may stand below it.
void write_band(Markup& page, const Band<double>& band) {
  page.open("td");
  page.element("b", number_text(band.middle, 0));
  page.text(" ");
  page.element("small", fmt::format("({} to {})", number_text(band.low, 0), number_text(band.high, 0)));
  page.close();
}

void write_season_week(Markup& page, const SiteAnswer& site, const TargetAnswer& target,
                       const advice::SeasonWeek& week) {
  const bool us = site.facts.us_units;
  start_row(page, site, target, week.week_of);
  page.element("th", short_date(week.week_of), {{"scope", "row"}});
  write_band(page, week.emerged_percent);
  page.element("td", number_text(week.young_percent, 0));
  page.element("td", number_text(week.older_percent, 0));
  page.element("td", week.soil_5cm.known() ? whole_degree_words(week.soil_5cm, us) : "not known");
  page.element("td", week.rain ? water_words(*week.rain, us) : "-");
  page.close();
}

/// What stops a part of a treatment in the week, below its date.
std::string stopped_by(const advice::WeekRow& row) {
  std::string words;
  for (const treatment::Gate& gate : row.gates) {
    if (gate.stops) words += (words.empty() ? "" : ", ") + std::string{treatment::name(gate.reason)};
  }
  return words;
}

void write_control_week(Markup& page, const SiteAnswer& site, const TargetAnswer& target,
                        const advice::WeekRow& row) {
  start_row(page, site, target, row.week.week_of);
  page.open("th", {{"scope", "row"}});
  page.text(short_date(row.week.week_of));
  if (is_best(target, row.week.week_of)) page.element("span", "best", {{"class", "below blue"}});
  const std::string stopped = stopped_by(row);
  if (!stopped.empty()) page.element("span", stopped, {{"class", "below"}});
  page.close();
  for (const treatment::Kind kind : treatment::all_kinds) {
    if (row.week.of(kind).allowed)
      write_band(page, row.week.of(kind).control);
    else
      page.element("td", "-");
  }
  page.close();
}

}  // namespace

void write_weeks(Markup& page, const SiteAnswer& site, const TargetAnswer& target) {
  const bool season = has_plate(target);
  if (!season && target.weeks.empty()) return;
  page.open("div", {{"class", "figures-part"}});
  page.element("h3", "The weeks in figures");
  page.open("div", {{"class", "two tables"}});
  if (!target.weeks.empty()) {
    start_table(page, "Expected control in percent, low to high end (8 of 10 cases)", "weeks",
                {"Week of", "pre", "pre+post", "post"});
    for (const advice::WeekRow& row : target.weeks) write_control_week(page, site, target, row);
    end_table(page);
  }
  if (season) {
    start_table(page,
                fmt::format("Of 100 seedlings on Monday, soil at {}, rain of the week",
                            depth_words(Depth::from_cm(5.0), site.facts.us_units)),
                "weeks", {"Week of", "Up", "Young", "Older", "Soil", "Rain"});
    for (const advice::SeasonWeek& week : advice::season_weeks(target.season, plate_span(target, site.on)))
      write_season_week(page, site, target, week);
    end_table(page);
  }
  page.close();
  page.close();
}

}  // namespace soilclock::report
