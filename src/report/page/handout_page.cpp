// SPDX-License-Identifier: MIT
#include "report/page/handout_page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/comparison_report.hpp"
#include "report/page/handout_lesson.hpp"
#include "report/page/handout_pictures.hpp"
#include "report/page/handout_style.hpp"
#include "report/page/page_parts.hpp"

namespace soilclock::report {

namespace {

using advice::SeasonRow;
using advice::SiteComparison;
using advice::TargetComparison;

/// What the marks and textures of the stack mean.
std::string stack_key(const std::string& first_rule, int yardstick_percent) {
  return fmt::format(
      "Dotted: still to come. Green: up and young. Brown: up and older. Triangle: {}. Ring: the first {} up. "
      "Diamond: half up. Each row is a hundred seedlings worked out by the models from that weather; nobody "
      "counted them.",
      first_rule, yardstick_percent);
}

std::string handout_start(const std::string& title) {
  return page_start("Handout: " + title,
                    {.script_hash = {}, .style = handout_style(), .style_hash = handout_style_hash()});
}

void write_head(Markup& page, const std::string& title, const std::string& place) {
  page.open("header", {{"class", "list handout"}});
  page.element("h1", title);
  page.element("p", place);
  page.close();
}

void write_cells(Markup& page, std::initializer_list<std::string> cells) {
  for (const std::string& cell : cells) page.element("td", cell);
}

void write_season_table(Markup& page, const std::string& caption, const std::string& what,
                        const std::vector<SeasonRow>& rows) {
  start_table(page, caption, "figures seasons no-print",
              {what, "5% up", "25% up", "Half up", "80% up", "Best week", "Kind", "Control (low end)"});
  for (const SeasonRow& row : rows) {
    const advice::SeasonSummary& season = row.season;
    page.open("tr");
    page.element("th", row.label, {{"scope", "row"}});
    write_cells(page, {day_cell(season.reached(5)), day_cell(season.reached(25)),
                       day_cell(season.reached(50)), day_cell(season.reached(80)), day_cell(season.best_week),
                       season.best_kind ? std::string{treatment::name(*season.best_kind)} : "-",
                       control_cell(season.best_control)});
    page.close();
  }
  end_table(page);
}

void write_spread(Markup& page, const TargetComparison& target) {
  start_table(page, fmt::format("Earliest, middle and latest of {} past seasons", target.seasons.size() - 1),
              "figures", {"", "Earliest", "Middle", "Latest", "Days apart", "This season"});
  for (const advice::SeasonDate& date : target.dates) {
    page.open("tr");
    page.element("th", date.title, {{"scope", "row"}});
    write_cells(page, {day_cell(date.earliest), day_cell(date.middle), day_cell(date.latest),
                       date.days_apart ? std::to_string(*date.days_apart) : "-", day_cell(date.this_season)});
    page.close();
  }
  end_table(page);
}

void write_calls(Markup& page, const TargetComparison& target) {
  page.open("section", {{"class", "handout-part"}});
  page.element("h2", "Ways to call the first residual, and the yardstick");
  page.element(
      "p", fmt::format("A dot a season: how many days the call came before or after the day on which {} of "
                       "a hundred were up. At the right, how far it was off on average.",
                       target.yardstick_percent));
  page.add(
      call_dots(target, {target.target + "-calls", "Calls against the yardstick",
                         "For each call and past season the days early or late; the table of calls says the "
                         "same."}));
  start_table(page, "Calls in days, negative: early", "figures no-print",
              {"Call", "Off on average", "Late in", "By season, oldest first"});
  for (const advice::CallMisses& call : target.calls) {
    std::string days;
    for (const auto& late : call.days_late) days += (days.empty() ? "" : ", ") + shift_cell(late);
    page.open("tr");
    page.element("th", call.title, {{"scope", "row"}});
    write_cells(page, {call.mean_miss ? number_text(*call.mean_miss, 0) + " days" : "-",
                       fmt::format("{} of {}", call.late_seasons, call.seasons), days});
    page.close();
  }
  end_table(page);
  if (target.yardstick_band) {
    page.element(
        "p", fmt::format("The yardstick is the models' own day, not a count. On {} it was known to within "
                         "{} days before and {} after (8 of 10 cases).",
                         short_date(target.what_ifs->asked_on, true), -target.yardstick_band->low,
                         target.yardstick_band->high));
  }
  page.close();
}

std::string with_shift(const std::optional<Day>& day, const std::optional<int>& shift) {
  return day ? fmt::format("{} ({})", short_date(*day), shift_cell(shift)) : "-";
}

void write_what_ifs(Markup& page, const TargetComparison& target) {
  if (!target.what_ifs) return;
  page.open("section", {{"class", "handout-part second-sheet"}});
  page.element(
      "h2", target.what_if_finding.empty() ? "If the site were a little different" : target.what_if_finding);
  start_table(page,
              fmt::format("Asked on {}, when every week still lay ahead, without soil readings",
                          short_date(target.what_ifs->asked_on, true)),
              "figures what-ifs",
              {"", fmt::format("{}% up", target.yardstick_percent), "Half up", "Best week", "Kind",
               "Control (low end)"});
  for (const advice::WhatIf& one : target.what_ifs->cases) {
    page.open("tr");
    page.element("th", one.title, {{"scope", "row"}});
    write_cells(page, {with_shift(one.first_up.middle, one.first_up_shift),
                       with_shift(one.half_up.middle, one.half_up_shift), day_cell(one.best_week),
                       one.best_kind ? std::string{treatment::name(*one.best_kind)} : "-",
                       control_cell(one.best_control)});
    page.close();
  }
  end_table(page);
  page.close();
}

void write_stack(Markup& page, const std::vector<SeasonRow>& rows, const TargetComparison& target, Day start,
                 const std::string& heading, const std::string& what) {
  const auto calendar = std::find_if(target.calls.begin(), target.calls.end(),
                                     [](const auto& call) { return call.id == "calendar"; });
  const auto first_rule = calendar == target.calls.end() ? calendar : calendar + 1;
  page.open("section", {{"class", "handout-part"}});
  page.element("h2", heading);
  page.add(season_stack(rows, target.yardstick_percent, start,
                        calendar == target.calls.end() ? std::nullopt : calendar->this_season,
                        {target.target + "-stack", heading,
                         "Each row shows how many of a hundred seedlings were still to come, young and older "
                         "through the season; the table says the dates."}));
  page.element("p",
               stack_key(first_rule == target.calls.end() ? "a soil rule of thumb" : first_rule->title,
                         target.yardstick_percent),
               {{"class", "key"}});
  write_season_table(page, heading + ", in dates", what, rows);
}

}  // namespace

std::string handout_body(const SiteComparison& site, const TargetComparison& target, const AnswerFrame& frame,
                         std::string_view main) {
  Markup page;
  write_textures(page);
  write_head(page, target.finding,
             fmt::format("{}, {}. {}", site.answer.name, lowered(target.title), target.range));
  page.open(main);
  const std::size_t past = target.seasons.size() - 1;
  write_stack(page, target.seasons, target, target.seasons.back().season.season_start,
              past == 0 ? "This season" : fmt::format("{} seasons, one above another", past + 1), "Season");
  if (past > 0) write_spread(page, target);
  page.close();
  if (past > 0) write_calls(page, target);
  write_what_ifs(page, target);
  if (site.lesson) write_lesson(page, *site.lesson);
  write_sources(page, site.answer, frame);
  write_care(page, site.answer, frame);
  page.close();
  return page.written();
}

std::string handout_page(const SiteComparison& site, const TargetComparison& target,
                         const AnswerFrame& frame) {
  return handout_start(site.answer.name + ", " + lowered(target.title)) + handout_body(site, target, frame) +
         page_end();
}

std::string sites_handout_page(const std::vector<SiteComparison>& sites, const std::string& target,
                               const AnswerFrame& frame) {
  const std::vector<SeasonRow> rows = advice::sites_side_by_side(sites, target);
  const SiteComparison* first = nullptr;
  const TargetComparison* compared = nullptr;
  for (const SiteComparison& site : sites) {
    for (const TargetComparison& one : site.targets) {
      if (compared != nullptr || one.target != target) continue;
      first = &site;
      compared = &one;
    }
  }
  if (compared == nullptr) return {};
  const std::string title =
      fmt::format("{} courses, one season of {}", rows.size(), lowered(compared->title));
  Markup page;
  write_textures(page);
  write_head(page, title, "The same date finds a different share of the seedlings up at each course.");
  page.open("main");
  write_stack(page, rows, *compared, rows.front().season.season_start, "The courses, one above another",
              "Course");
  page.close();
  write_care(page, first->answer, frame);
  page.close();
  return handout_start(title) + page.written() + page_end();
}

}  // namespace soilclock::report
