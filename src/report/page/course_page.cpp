// SPDX-License-Identifier: MIT
#include "report/page/course_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advice/answer/urgency.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"
#include "core/unit_words.hpp"
#include "report/answer_words.hpp"
#include "report/page/page_parts.hpp"
#include "report/page/plate.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

std::string place_words(const SiteAnswer& site) {
  std::vector<std::string> parts;
  if (site.facts.turf) parts.emplace_back(treatment::name(*site.facts.turf));
  if (site.facts.irrigated) parts.emplace_back(*site.facts.irrigated ? "irrigated" : "not irrigated");
  const Place& place = site.place;
  if (std::isfinite(place.latitude_deg) && std::isfinite(place.longitude_deg))
    parts.push_back(fmt::format(
        "{} {} {} {}", number_text(std::abs(place.latitude_deg), 1), place.latitude_deg < 0 ? "S" : "N",
        number_text(std::abs(place.longitude_deg), 1), place.longitude_deg < 0 ? "W" : "E"));
  if (place.elevation_m) parts.push_back(length_words(*place.elevation_m, site.facts.us_units));
  return fmt::format("{}", fmt::join(parts, ", "));
}

void write_header(Markup& page, const SiteAnswer& site) {
  page.open("header");
  page.open("div");
  page.element("h1", site.name);
  page.element("p", place_words(site));
  page.close();
  page.open("div", {{"class", "when"}});
  page.element("p", "Morning of " + long_date(site.on));
  page.element("p", "weather " + data_age_words(site),
               {{"class", site.weather.age_days > 1 ? "old" : "age"}});
  page.close();
  page.close();
}

/// The lines of the short answer that nothing else on the page says: "why" is the lead, "plan" has its own
/// place.
void write_brief(Markup& page, const TargetAnswer& target) {
  const auto elsewhere = [](const advice::BriefLine& line) {
    return line.label == "why" || line.label == "plan";
  };
  if (std::all_of(target.brief.begin(), target.brief.end(), elsewhere)) return;
  page.open("dl");
  for (const advice::BriefLine& line : target.brief) {
    if (elsewhere(line)) continue;
    page.open("div");
    page.element("dt", line.label);
    page.element("dd", line.text);
    page.close();
  }
  page.close();
}

void write_call(Markup& page, const TargetAnswer& target) {
  constexpr std::size_t long_call = 60;  // letters that fit on two lines of the largest type
  page.open("div", {{"class", "say"}});
  page.element("p", target.title, {{"class", "grass"}, {"id", target.target + "-grass"}});
  page.element("h2", target.call,
               {{"id", target.target + "-call"}, {target.call.size() > long_call ? "class" : "", "long"}});
  if (!target.call_figures.empty()) page.element("p", target.call_figures, {{"class", "numbers"}});
  if (!target.lead.empty()) page.element("p", target.lead, {{"class", "lead"}});
  write_brief(page, target);
  page.close();
}

void write_plates(Markup& page, const SiteAnswer& site, const TargetAnswer& target) {
  if (!has_plate(target)) return;
  page.open("div", {{"class", "season"}});
  page.element("h3", "The season so far, and as it may go on");
  page.add(season_plate(site, target, PlateForm::wide, target.target + "-wide"));
  page.add(season_plate(site, target, PlateForm::phone, target.target + "-phone"));
  page.close();
}

/// The first sheet is complete in itself: what to do and the season. Everything behind it follows.
void write_target(Markup& page, const SiteAnswer& site, const TargetAnswer& target, bool with_days) {
  page.open("section",
            {{"class", "target"}, {"aria-labelledby", fmt::format("{0}-grass {0}-call", target.target)}});
  page.open("div", {{"class", has_plate(target) ? "sheet" : "sheet short"}});
  Markup side;
  write_hundred(side, target);
  write_plan(side, target);
  page.open("div", {{"class", side.written().empty() ? "head alone" : "head"}});
  write_call(page, target);
  if (!side.written().empty()) {
    page.open("div", {{"class", "side"}});
    page.add(side.written());
    page.close();
  }
  page.close();
  if (with_days) write_days(page, site);
  write_plates(page, site, target);
  page.close();
  write_reasons(page, site, target);
  write_weeks(page, site, target);
  page.open("div", {{"class", "two"}});
  write_models(page, target);
  write_notes(page, target);
  page.close();
  page.close();
}

std::string closed_words(const TargetAnswer& target) {
  return target.refusal ? "No answer. " + describe(*target.refusal) + "." : target.call;
}

void write_closed(Markup& page, const std::vector<const TargetAnswer*>& closed, bool alone) {
  if (closed.empty()) return;
  page.open("section", {{"class", alone ? "closed alone" : "closed"}});
  page.element("h2", alone ? "This season" : "Other grasses here");
  for (const TargetAnswer* target : closed) {
    page.open("p");
    page.element("strong", target->title.empty() ? target->target : target->title);
    page.text(": " + closed_words(*target));
    page.close();
  }
  page.close();
}

/// Targets still open, most urgent first.
std::vector<const TargetAnswer*> open_targets(const SiteAnswer& site) {
  std::vector<const TargetAnswer*> open;
  for (const advice::RankedTarget& entry : advice::by_urgency({&site, 1}))
    open.push_back(&site.targets[entry.target]);
  return open;
}

/// What all areas of the course come to, on the page of one of them.
void write_course(Markup& page, const SiteAnswer& site, const AnswerFrame& frame) {
  for (const advice::CourseSummary& course : frame.courses) {
    if (!site.facts.area || course.course != site.facts.area->course) continue;
    page.open("section", {{"class", "closed"}});
    page.element("h2", "All areas of " + course.name);
    write_grasses(page, course, "");
    page.close();
  }
}

}  // namespace

std::string course_body(const SiteAnswer& site, const AnswerFrame& frame) {
  const std::vector<const TargetAnswer*> open = open_targets(site);
  std::vector<const TargetAnswer*> closed;
  for (const TargetAnswer& target : site.targets) {
    if (!advice::still_open(target)) closed.push_back(&target);
  }
  Markup page;
  write_textures(page);
  if (!open.empty()) write_stage_shapes(page);
  write_header(page, site);
  page.open("main");
  if (site.priority_warning) page.element("p", *site.priority_warning, {{"class", "warning"}});
  for (const Problem& problem : site.problems)
    page.element("p", describe(problem) + ".", {{"class", "problem"}});
  for (const TargetAnswer* target : open) write_target(page, site, *target, target == open.front());
  write_closed(page, closed, open.empty());
  write_course(page, site, frame);
  write_sources(page, site, frame);
  write_care(page, site, frame);
  page.close();
  return page.written();
}

std::string course_page(const SiteAnswer& site, const AnswerFrame& frame) {
  return page_start(fmt::format("{}, {}", site.name, long_date(site.on))) + course_body(site, frame) +
         page_end();
}

}  // namespace soilclock::report
