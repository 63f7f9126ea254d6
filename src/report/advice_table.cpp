// SPDX-License-Identifier: MIT
// The answers of many sites as one table.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "advice/answer/answer_changes.hpp"
#include "advice/answer/portfolio.hpp"
#include "advice/answer/urgency.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/advice_text.hpp"
#include "report/text_columns.hpp"
#include "report/weather_credit.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

using advice::SiteAnswer;
using advice::TargetAnswer;

constexpr std::size_t longest_name = 26;
constexpr std::size_t longest_area = 20;
constexpr std::size_t longest_area_row = 34;
constexpr std::size_t most_doubts = 4;

/// "Copper Heron, north tee". When that is too long, the name of the course is cut short, not that of the
/// area.
std::string row_name(const SiteAnswer& site) {
  if (!site.facts.area) return printable(site.name, longest_name);
  const std::string area = printable(site.facts.area->name, longest_area);
  const std::size_t left = longest_area_row - std::min(columns_of(area), longest_area) - 2;
  return printable(site.facts.area->course_name, left) + ", " + area;
}

std::string days_words(const std::optional<advice::MondaySpan>& span) {
  if (!span) return "";
  return short_date(span->first) + " - " + short_date(span->last + Days{6});
}

std::string cost_words(const advice::Decision& decision) {
  std::string text;
  for (const auto& cost : decision.cost_of_waiting) {
    if (!cost) break;
    text += fmt::format("{}{}", text.empty() ? "" : "/", advice::points_lost(*cost));
  }
  return text;
}

std::string row_of(const SiteAnswer& site, const TargetAnswer& target, std::size_t name_width) {
  const advice::Decision& decision = target.decision;
  const std::string control = decision.control
                                  ? fmt::format("{}% ({})", number_text(decision.control->middle, 0),
                                                number_text(decision.control->low, 0))
                                  : "";
  std::string row = fmt::format(
      "{:<{}}  {:<6} {:<21} {:<9} {:<9} {:<16} {:<9} {}", row_name(site), name_width, target.target,
      advice::name(decision.action), decision.kind ? treatment::name(*decision.kind) : "", control,
      days_words(decision.best_range),
      decision.good_through ? short_date(*decision.good_through + Days{6}) : "", cost_words(decision));
  row.erase(row.find_last_not_of(' ') + 1);
  return row + "\n";
}

/// Doubts several sites share, each once, the most common first.
std::string shared_doubts(std::span<const SiteAnswer> sites) {
  std::map<std::string, int> counts;
  for (const SiteAnswer& site : sites) {
    for (const TargetAnswer& target : site.targets) {
      for (const advice::BriefLine& line : target.brief) {
        if (line.label == "doubt") ++counts[line.text];
      }
    }
  }
  std::vector<std::pair<int, std::string>> ranked;
  ranked.reserve(counts.size());
  for (const auto& [text, count] : counts) ranked.emplace_back(count, text);
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::string text;
  for (std::size_t i = 0; i < std::min(ranked.size(), most_doubts); ++i)
    text += wrapped(fmt::format("Doubt ({}x): {}", ranked[i].first, ranked[i].second), 0);
  return text;
}

std::string name_list(const std::vector<std::string>& names) {
  constexpr std::size_t shown = 6;
  std::string text;
  for (std::size_t i = 0; i < std::min(names.size(), shown); ++i) text += (i == 0 ? "" : ", ") + names[i];
  if (names.size() > shown) text += fmt::format(" and {} more", names.size() - shown);
  return text;
}

/// Whose weather the answers rest on, each once; empty where nothing was fetched.
std::string credit_of(std::span<const SiteAnswer> sites) {
  Origins origins;
  for (const SiteAnswer& site : sites)
    origins.insert(origins.end(), site.weather.origins.begin(), site.weather.origins.end());
  return origins.empty() ? "" : wrapped(weather_sources_cell(origins) + ".", 0);
}

std::string changed_words(std::span<const SiteAnswer> sites) {
  std::string text;
  for (const advice::ChangedTarget& changed : advice::changed_targets(sites)) {
    const SiteAnswer& site = sites[changed.site];
    text += wrapped(fmt::format("Changed since {}: {}, {}: {}.", short_date(changed.since), row_name(site),
                                site.targets[changed.target].target, changed.text),
                    0);
  }
  return text;
}

}  // namespace

std::string advice_table(std::span<const SiteAnswer> sites) {
  const std::vector<advice::RankedTarget> ranked = advice::by_urgency(sites);
  std::size_t width = 4;
  for (const SiteAnswer& site : sites) width = std::max(width, row_name(site).size());
  std::string text;
  if (!ranked.empty()) {
    text += fmt::format("{:<{}}  {:<6} {:<21} {:<9} {:<9} {:<16} {:<9} {}\n", "site", width, "grass",
                        "this week", "kind", "control", "best weeks", "good to", "waiting 1/2/3 weeks costs");
  }
  for (const advice::RankedTarget& entry : ranked)
    text += row_of(sites[entry.site], sites[entry.site].targets[entry.target], width);
  std::size_t finished = 0;
  std::vector<std::string> warned;
  for (const SiteAnswer& site : sites) {
    if (site.priority_warning) warned.push_back(row_name(site));
    for (const TargetAnswer& target : site.targets)
      finished += !target.refusal && !advice::still_open(target) ? 1 : 0;
  }
  if (finished > 0) text += fmt::format("Nothing left to time this season: {} of the answers.\n", finished);
  if (!warned.empty())
    text += wrapped("Overseeding comes first, see the details: " + name_list(warned) + ".", 0);
  text += changed_words(sites);
  text += shared_doubts(sites);
  for (const SiteAnswer& site : sites) {
    for (const Problem& problem : site.problems)
      text += wrapped(fmt::format("{}: {}.", row_name(site), describe(problem)), 0);
  }
  if (!ranked.empty())
    text +=
        "Control in percent of the season's seedlings, in brackets at least in 9 of 10 cases. More: "
        "--details.\n";
  return text + credit_of(sites);
}

}  // namespace soilclock::report
