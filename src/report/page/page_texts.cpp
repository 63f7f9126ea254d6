// SPDX-License-Identifier: MIT
// The sections of a page that are text: reasons, doubts, models, notes, sources.
#include <fmt/format.h>

#include <cmath>

#include "core/number_text.hpp"
#include "report/answer_words.hpp"
#include "report/page/page_parts.hpp"
#include "report/weather_credit.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

std::string with_stop(const std::string& text) {
  return text.empty() || text.ends_with('.') ? text : text + ".";
}

void write_list(Markup& page, std::string_view heading, const std::vector<std::string>& items) {
  page.open("div");
  page.element("h3", heading);
  page.open("ul");
  for (const std::string& item : items) page.element("li", with_stop(item));
  page.close();
  page.close();
}

std::vector<std::string> reasons_of(const SiteAnswer& site, const TargetAnswer& target) {
  std::vector<std::string> reasons = target.reasons;
  std::vector<std::string> rules;
  for (const advice::SoilRuleStatus& rule : target.soil_rules)
    rules.push_back(rule_words(rule, site.facts.us_units));
  if (!rules.empty()) reasons.push_back(fmt::format("Rules of thumb: {}", fmt::join(rules, "; ")));
  if (site.turf)
    reasons.push_back(fmt::format("Turf is {} ({}){}{}", treatment::name(site.turf->state),
                                  site.turf->noted ? "noted" : "estimated",
                                  site.turf->ask.empty() ? "" : ". ", site.turf->ask));
  return reasons;
}

std::vector<std::string> doubts_of(const SiteAnswer& site, const TargetAnswer& target) {
  std::vector<std::string> doubts;
  for (const Remark& remark : target.remarks) doubts.push_back(remark.text);
  for (const Remark& remark : site.remarks) doubts.push_back(remark.text);
  if (site.spray) {
    for (const Remark& remark : site.spray->remarks) doubts.push_back(remark.text);
  }
  return doubts;
}

/// A citation; its title and how it was read stay off the paper.
void write_source(Markup& page, const Source& source) {
  page.open("li");
  page.text(fmt::format("{} ({}). ", source.authors, source.year));
  if (!source.title.empty()) page.element("span", with_stop(source.title) + " ", {{"class", "more"}});
  page.text(with_stop(source.journal + (source.pages.empty() ? "" : " " + source.pages)));
  if (!source.how_read.empty())
    page.element("span", " Read as: " + source.how_read + ".", {{"class", "more"}});
  page.close();
}

}  // namespace

void write_reasons(Markup& page, const SiteAnswer& site, const TargetAnswer& target) {
  page.open("div", {{"class", "two"}});
  const auto reasons = reasons_of(site, target);
  if (!reasons.empty()) write_list(page, "Why", reasons);
  const auto doubts = doubts_of(site, target);
  if (!doubts.empty()) write_list(page, "What makes this unsure", doubts);
  page.close();
}

void write_models(Markup& page, const TargetAnswer& target) {
  if (target.models.empty()) return;
  page.open("div");
  page.element("h3", "The models behind it");
  page.open("table", {{"class", "models"}});
  page.element("caption", "Component models, percent up by each alone, and weight", {{"class", "unseen"}});
  page.open("tr");
  for (const char* heading : {"Model", "Up", "Weight"}) page.element("th", heading, {{"scope", "col"}});
  page.close();
  for (const advice::ModelShare& model : target.models) {
    page.open("tr");
    page.element("th", model.title + (model.why_no_weight.empty() ? "" : " (" + model.why_no_weight + ")"),
                 {{"scope", "row"}});
    page.element("td",
                 std::isfinite(model.percent) ? fmt::format("{}%", number_text(model.percent, 0)) : "-");
    page.element("td", fmt::format("{}%", number_text(100.0 * model.weight, 0)));
    page.close();
  }
  page.close();
  page.close();
}

void write_notes(Markup& page, const TargetAnswer& target) {
  if (target.notes.empty()) return;
  page.open("div");
  page.element("h3", "Noted here");
  page.open("table", {{"class", "notes"}});
  page.element("caption", "Entries of the log this season", {{"class", "unseen"}});
  for (const advice::NoteShown& note : target.notes) {
    page.open("tr");
    page.element("th", short_date(note.day), {{"scope", "row"}});
    page.element("td", note.text);
    page.close();
  }
  page.close();
  page.close();
}

void write_sources(Markup& page, const SiteAnswer& site, const AnswerFrame& frame) {
  page.open("section", {{"class", "sources"}});
  page.element("h2", "Where the figures come from");
  std::string text = "Weather " + data_age_words(site) + ".";
  if (site.weather.filled_days > 0) text += fmt::format(" {} days filled.", site.weather.filled_days);
  const std::string soil = soil_words(site);
  if (!soil.empty()) text += " " + soil + ".";
  page.element("p", text);
  for (const std::string& line : weather_source_lines(site.weather.origins, site.on)) page.element("p", line);
  if (!frame.sources.empty()) {
    page.open("ul", {{"class", "citations"}});
    for (const Source& source : frame.sources) write_source(page, source);
    page.close();
  }
  page.close();
}

void write_care(Markup& page, const SiteAnswer& site, const AnswerFrame& frame) {
  page.open("section", {{"class", "care"}});
  page.element("h2", "Care");
  page.element("p", fmt::format("{}", fmt::join(frame.cautions, " ")));
  page.close();
  page.open("footer");
  std::string text = "Written from the weather known on the morning of " + short_date(site.on, true);
  if (!frame.program.empty()) text += " by soilclock " + frame.program;
  if (site.settings.members > 0)
    text += fmt::format(" from {} possible seasons, seed {}", site.settings.members, site.settings.seed);
  page.element("p", text + ".");
  page.close();
}

void start_table(Markup& page, std::string_view caption, std::string_view css_class,
                 const std::vector<std::string_view>& headings) {
  page.open("table", {{"class", css_class}});
  page.element("caption", caption);
  page.open("thead");
  page.open("tr");
  for (const std::string_view heading : headings) {
    if (heading.empty())
      page.element("td", "");
    else
      page.element("th", heading, {{"scope", "col"}});
  }
  page.close();
  page.close();
  page.open("tbody");
}

void end_table(Markup& page) {
  page.close();
  page.close();
}

}  // namespace soilclock::report
