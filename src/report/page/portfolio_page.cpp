// SPDX-License-Identifier: MIT
#include "report/page/portfolio_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "advice/answer/answer_changes.hpp"
#include "advice/answer/portfolio.hpp"
#include "advice/answer/urgency.hpp"
#include "core/number_text.hpp"
#include "report/page/course_list_script.hpp"
#include "report/page/page_parts.hpp"
#include "report/page/portfolio_strip.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

/// One row: a course and one of its grasses.
struct Row {
  std::size_t site = 0;
  const TargetAnswer* target = nullptr;
};

/// The rows of one grass, the most urgent first.
struct Table {
  std::string title;
  std::vector<Row> rows;
};

/// Tables in the order in which their grass comes up among the most urgent.
std::vector<Table> tables_of(std::span<const SiteAnswer> sites) {
  std::vector<Table> tables;
  for (const advice::RankedTarget& ranked : advice::by_urgency(sites)) {
    const TargetAnswer& target = sites[ranked.site].targets[ranked.target];
    auto table = std::find_if(tables.begin(), tables.end(),
                              [&](const Table& known) { return known.title == target.title; });
    if (table == tables.end()) table = tables.insert(tables.end(), {target.title, {}});
    table->rows.push_back({ranked.site, &target});
  }
  return tables;
}

/// Writes pages with what every row needs.
class Portfolio {
 public:
  Portfolio(std::span<const SiteAnswer> sites, std::span<const std::string> files, const AnswerFrame& frame)
      : sites_{sites}, files_{files}, areas_{frame.courses}, on_{frame.on} {}

  std::string written() {
    const advice::Portfolio all = advice::portfolio_of(sites_);
    page_.open("header", {{"class", "list"}});
    page_.element("h1", all.headline);
    page_.element("p",
                  "Morning of " + long_date(on_) + ". The course that loses most by waiting comes first.");
    page_.close();
    page_.open("main");
    write_textures(page_);
    write_areas();
    write_changes();
    page_.element("p", "", {{"class", "filter"}});
    std::size_t number = 0;
    for (const Table& table : tables_of(sites_)) write_table(table, ++number);
    write_key();
    write_closed();
    page_.close();
    return page_.written();
  }

 private:
  /// Nothing where no course has areas.
  void write_areas() {
    if (areas_.empty()) return;
    page_.open("section", {{"class", "changes"}});
    page_.element("h2", "Courses by area");
    for (const advice::CourseSummary& course : areas_) write_grasses(page_, course, course.name + ", ");
    page_.close();
  }

  /// Nothing where no earlier answer is known.
  void write_changes() {
    const auto since = advice::compared_with(sites_);
    if (!since) return;
    const auto changed = advice::changed_targets(sites_);
    page_.open("section", {{"class", "changes"}});
    page_.element("h2", (changed.empty() ? "Nothing changed since " : "Changed since ") + short_date(*since));
    for (const advice::ChangedTarget& change : changed) {
      page_.open("p");
      write_name(change.site);
      const std::string when = change.since == *since ? "" : " since " + short_date(change.since);
      page_.text(
          fmt::format(", {}{}: {}", sites_[change.site].targets[change.target].title, when, change.text));
      page_.close();
    }
    page_.close();
  }

  void write_head(const Table& table, DayRange days) {
    std::set<std::string> courses;
    for (const Row& row : table.rows) courses.insert(advice::course_of(sites_[row.site]));
    page_.element("caption", fmt::format("{}, {} course{}", table.title, courses.size(),
                                         courses.size() == 1 ? "" : "s"));
    page_.open("thead");
    page_.open("tr");
    const auto head = [&](std::string_view text, std::string_view css_class) {
      page_.element("th", text, {{"scope", "col"}, {"class", css_class}});
    };
    head("Course", "sorts");
    page_.open("th", {{"scope", "col"}, {"class", "strip-cell"}});
    page_.add(strip_axis(days, on_));
    page_.close();
    head("This week", "sorts act");
    head("With", "sorts kind");
    head("Gives", "sorts number");
    head("At least", "sorts number least");
    head("Best weeks", "sorts best");
    head("Good through", "sorts through");
    head("Lost in 1 week", "sorts number lost");
    head("in 2", "sorts number lost");
    head("in 3", "sorts number lost three");
    head("Up of 100", "sorts number");
    head("Days against usual", "sorts number usual");
    head("Fit days", "sorts number");
    head("Doubts", "doubts");
    page_.close();
    page_.close();
  }

  void write_table(const Table& table, std::size_t number) {
    std::vector<const TargetAnswer*> targets;
    for (const Row& row : table.rows) targets.push_back(row.target);
    const DayRange days = strip_days(targets, on_);
    page_.open("table", {{"class", "courses"}});
    write_head(table, days);
    page_.open("tbody");
    for (std::size_t i = 0; i < table.rows.size(); ++i)
      write_row(table.rows[i], days, fmt::format("strip-{}-{}", number, i + 1));
    page_.close();
    page_.close();
  }

  void write_name(std::size_t site) {
    if (files_[site].empty())
      page_.text(sites_[site].name);
    else
      page_.element("a", sites_[site].name, {{"href", files_[site]}});
  }

  /// A cell of figures; unknown ones sort last.
  void number_cell(std::optional<double> value, const std::string& text,
                   std::string_view css_class = "number") {
    page_.element("td", text,
                  {{"class", css_class}, {"data-sort", value ? number_text(*value, 1) : std::string{"1e9"}}});
  }

  void day_cell(std::optional<Day> day, const std::string& text, std::string_view css_class) {
    const long since = day ? (*day - on_).count() : 1'000'000'000L;
    page_.element("td", text, {{"class", css_class}, {"data-sort", std::to_string(since)}});
  }

  void write_row(const Row& row, DayRange days, const std::string& id) {
    const SiteAnswer& site = sites_[row.site];
    const TargetAnswer& target = *row.target;
    const advice::Decision& decision = target.decision;
    page_.open("tr");
    page_.open("th", {{"scope", "row"}});
    write_name(row.site);
    page_.close();
    page_.open("td", {{"class", "strip-cell"}});
    page_.add(season_strip(target, days, on_, id, site.name));
    page_.close();
    const bool now = decision.action == advice::Action::treat;
    page_.element("td", advice::action_in_short(target, on_), {{"class", now ? "act now" : "act"}});
    page_.element("td", decision.kind ? treatment::name(*decision.kind) : "", {{"class", "kind"}});
    const auto percent = [](double value) { return number_text(value, 0) + "%"; };
    number_cell(decision.control ? std::optional{decision.control->middle} : std::nullopt,
                decision.control ? percent(decision.control->middle) : "");
    number_cell(decision.control ? std::optional{decision.control->low} : std::nullopt,
                decision.control ? percent(decision.control->low) : "", "number least");
    write_weeks(decision);
    write_costs(decision);
    const double up = target.emerged_percent.middle;
    number_cell(std::isfinite(up) ? std::optional{up} : std::nullopt,
                std::isfinite(up) ? number_text(up, 0) : "");
    write_usual(target);
    const auto fit = site.spray ? site.spray->fit_days : std::nullopt;
    number_cell(fit ? std::optional<double>{*fit} : std::nullopt, fit ? std::to_string(*fit) : "?");
    page_.element("td", doubts_of(site, target), {{"class", "doubts"}});
    page_.close();
  }

  void write_costs(const advice::Decision& decision) {
    static constexpr std::array css_classes{"number lost", "number lost", "number lost three"};
    for (std::size_t i = 0; i < decision.cost_of_waiting.size(); ++i) {
      const auto& cost = decision.cost_of_waiting[i];
      number_cell(cost, cost ? advice::points_lost(*cost) : "", css_classes[i]);
    }
  }

  void write_weeks(const advice::Decision& decision) {
    const auto& best = decision.best_range;
    day_cell(best ? std::optional{best->first} : std::nullopt,
             best ? short_date(best->first) + " to " + short_date(best->last + Days{6}) : "", "best");
    const auto through =
        decision.good_through ? std::optional{*decision.good_through + Days{6}} : std::nullopt;
    day_cell(through, through ? short_date(*through) : "", "through");
  }

  void write_usual(const TargetAnswer& target) {
    const auto days = target.usual ? target.usual->days_against_usual : std::nullopt;
    const std::string text = !days ? ""
                             : *days == 0
                                 ? "as usual"
                                 : fmt::format("{} {}", std::abs(*days), *days > 0 ? "later" : "earlier");
    number_cell(days ? std::optional<double>{*days} : std::nullopt, text, "number usual");
  }

  static std::string doubts_of(const SiteAnswer& site, const TargetAnswer& target) {
    std::vector<std::string> doubts;
    if (site.priority_warning) doubts.emplace_back("overseeding first");
    if (target.models_disagree) doubts.emplace_back("models disagree");
    if (site.weather.age_days > 1 && site.weather.last_measured)
      doubts.push_back("data to " + short_date(*site.weather.last_measured));
    if (site.weather.missing_days > 0) doubts.push_back(fmt::format("{} missing", site.weather.missing_days));
    if (site.weather.filled_days > 0) doubts.push_back(fmt::format("{} filled", site.weather.filled_days));
    return fmt::format("{}", fmt::join(doubts, ", "));
  }

  void write_key() {
    page_.element(
        "p",
        "Strip: kinds by percent emerged, a rule of thumb (dotted: pre, striped: pre+post, plain: post), "
        "their joints slanted from the early to the late date. Blue frame: best weeks. Blue line: good "
        "through. Lozenge: half up this season. Ring: half up in a usual season. Lost: points of expected "
        "control lost at most if so many weeks pass. At least: in 9 of 10 cases. Fit: days of the next "
        "seven that look fit for spraying.",
        {{"class", "key"}});
  }

  /// Courses with nothing left and those without an answer.
  void write_closed() {
    Markup lines;
    std::swap(lines, page_);
    for (std::size_t i = 0; i < sites_.size(); ++i) write_closed_lines(i);
    std::swap(lines, page_);
    if (lines.written().empty()) return;
    page_.open("section", {{"class", "closed"}});
    page_.element("h2", "Not in the tables");
    page_.add(lines.written());
    page_.close();
  }

  void write_closed_lines(std::size_t index) {
    const SiteAnswer& site = sites_[index];
    for (const TargetAnswer& target : site.targets) {
      if (advice::still_open(target)) continue;
      write_line(index, target.title.empty() ? target.target : target.title,
                 target.refusal ? describe(*target.refusal) + "." : target.headline);
    }
    if (!site.targets.empty()) return;
    for (const Problem& problem : site.problems) write_line(index, "no answer", describe(problem) + ".");
  }

  void write_line(std::size_t site, const std::string& what, const std::string& text) {
    page_.open("p");
    write_name(site);
    page_.text(fmt::format(", {}: {}", what, text));
    page_.close();
  }

  std::span<const SiteAnswer> sites_;
  std::span<const std::string> files_;
  std::span<const advice::CourseSummary> areas_;
  Day on_;
  Markup page_;
};

}  // namespace

std::string portfolio_body(std::span<const SiteAnswer> sites, std::span<const std::string> files,
                           const AnswerFrame& frame) {
  Markup care;
  care.open("footer");
  for (const std::string& caution : frame.brief_cautions) care.element("p", caution);
  care.close();
  return Portfolio{sites, files, frame}.written() + care.written();
}

std::string portfolio_page(std::span<const SiteAnswer> sites, std::span<const std::string> files,
                           const AnswerFrame& frame) {
  const std::string title = "Courses, " + long_date(frame.on);
  return page_start(title, {.script_hash = course_list_script_hash(), .style = {}, .style_hash = {}}) +
         portfolio_body(sites, files, frame) + fmt::format("<script>{}</script>\n", course_list_script()) +
         page_end();
}

}  // namespace soilclock::report
