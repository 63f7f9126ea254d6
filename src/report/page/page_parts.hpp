// SPDX-License-Identifier: MIT
// The sections of a course page.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "advice/answer/answer.hpp"
#include "report/advice_json.hpp"
#include "report/markup/markup.hpp"

namespace soilclock::report {

/// "Thursday, Oct 15, 2026".
std::string long_date(Day day);

/// What a page has beside the style sheet of all pages; hashes as "sha256-...".
struct PageExtras {
  std::string_view script_hash;  ///< of its script; empty: it has none
  std::string_view style;        ///< more rules; may be empty
  std::string_view style_hash;   ///< of exactly these
};

/// Doctype, head with style sheets and content security policy, and the opened body.
std::string page_start(const std::string& title, const PageExtras& extras = {});

/// Closes what page_start opened.
std::string page_end();

/// The textures all pictures of a page use, drawn once.
void write_textures(Markup& page);

/// What the areas of a course come to, a paragraph a grass that begins with `start`.
void write_grasses(Markup& page, const advice::CourseSummary& course, const std::string& start);

/// A table up to the first row of its body, and what closes it. An empty heading is an empty cell.
void start_table(Markup& page, std::string_view caption, std::string_view css_class,
                 const std::vector<std::string_view>& headings);
void end_table(Markup& page);

/// The drawings of the stages that write_hundred() places, once for a page.
void write_stage_shapes(Markup& page);

/// Line drawings of the stages with their counts of a hundred, and a bar.
void write_hundred(Markup& page, const advice::TargetAnswer& target);

/// The coming seven days.
void write_days(Markup& page, const advice::SiteAnswer& site);

/// The plan the answer is for, or what other classes of plan would change.
void write_plan(Markup& page, const advice::TargetAnswer& target);

/// Why, and what makes it unsure.
void write_reasons(Markup& page, const advice::SiteAnswer& site, const advice::TargetAnswer& target);

/// The weeks as tables: what the pictures show.
void write_weeks(Markup& page, const advice::SiteAnswer& site, const advice::TargetAnswer& target);

/// Component models and what was noted.
void write_models(Markup& page, const advice::TargetAnswer& target);
void write_notes(Markup& page, const advice::TargetAnswer& target);

/// Weather, soil, settings and citations.
void write_sources(Markup& page, const advice::SiteAnswer& site, const AnswerFrame& frame);

/// The cautions, and what the page was made from.
void write_care(Markup& page, const advice::SiteAnswer& site, const AnswerFrame& frame);

}  // namespace soilclock::report
