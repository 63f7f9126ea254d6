// SPDX-License-Identifier: MIT
#include "advice/comparison/changed_answer.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "core/number_text.hpp"

namespace soilclock::advice {

namespace {

std::optional<Day> half_up(const TargetAnswer& target) {
  for (const Milestone& milestone : target.milestones) {
    if (milestone.percent == 50) return milestone.date.middle;
  }
  return std::nullopt;
}

std::string day_words(const std::optional<Day>& day) { return day ? short_date(*day) : ""; }

std::string percent_words(double percent) { return std::isfinite(percent) ? number_text(percent, 0) : ""; }

std::string best_words(const Decision& decision) {
  if (!decision.best_range) return "";
  const std::string first = short_date(decision.best_range->first);
  const std::string last = short_date(decision.best_range->last + Days{6});
  return first + " to " + last;
}

std::string kind_words(const Decision& decision) {
  return decision.kind ? std::string{treatment::name(*decision.kind)} : "";
}

std::string control_words(const Decision& decision) {
  if (!decision.control) return "";
  return fmt::format("{}%, at least {}% in 9 of 10 cases", number_text(decision.control->middle, 0),
                     number_text(decision.control->low, 0));
}

std::string cost_words(const std::optional<double>& cost) {
  if (!cost) return "";
  const std::string points = number_text(*cost, 0);
  return points + (points == "1" ? " point" : " points");
}

std::string half_up_change(const std::optional<Day>& before, const std::optional<Day>& after) {
  if (!before || !after || *before == *after) return "";
  const auto days = (*after - *before).count();
  return fmt::format("Half the seedlings are up {} day{} {}, on {} instead of {}.", std::abs(days),
                     std::abs(days) == 1 ? "" : "s", days < 0 ? "earlier" : "later", short_date(*after),
                     short_date(*before));
}

/// "Best weeks: X instead of Y."; empty where both are alike.
std::string change_of(const FigurePair& pair) {
  if (pair.as_read == pair.asked) return "";
  const auto said = [](const std::string& text) { return text.empty() ? std::string{"none"} : text; };
  return fmt::format("{}: {} instead of {}.", pair.label, said(pair.asked), said(pair.as_read));
}

std::string later_words(const Decision& decision, int weeks_later) {
  if (weeks_later < 1 || weeks_later > static_cast<int>(decision.cost_of_waiting.size())) return "";
  const auto& cost = decision.cost_of_waiting[static_cast<std::size_t>(weeks_later) - 1];
  const std::string when = weeks_later == 1 ? "one week" : count_words(weeks_later) + " weeks";
  if (!cost) return fmt::format("The cost of waiting {} is not known.", when);
  return fmt::format("Waiting {} costs at most {} of expected control.", when, cost_words(cost));
}

}  // namespace

std::vector<FigurePair> figure_pairs(const TargetAnswer& as_read, const TargetAnswer& asked) {
  const Decision& before = as_read.decision;
  const Decision& after = asked.decision;
  std::vector<FigurePair> pairs{{"Half up", day_words(half_up(as_read)), day_words(half_up(asked))},
                                {"Up today, of 100", percent_words(as_read.emerged_percent.middle),
                                 percent_words(asked.emerged_percent.middle)},
                                {"Best weeks", best_words(before), best_words(after)},
                                {"Kind", kind_words(before), kind_words(after)},
                                {"Expected control", control_words(before), control_words(after)}};
  for (std::size_t i = 0; i < before.cost_of_waiting.size(); ++i) {
    pairs.push_back({fmt::format("Lost by waiting {} week{}", i + 1, i == 0 ? "" : "s"),
                     cost_words(before.cost_of_waiting[i]), cost_words(after.cost_of_waiting[i])});
  }
  return pairs;
}

std::vector<std::string> what_changed(const TargetAnswer& as_read, const TargetAnswer& asked,
                                      int weeks_later) {
  std::vector<std::string> said;
  const auto say = [&](std::string sentence) {
    if (!sentence.empty()) said.push_back(std::move(sentence));
  };
  say(half_up_change(half_up(as_read), half_up(asked)));
  if (as_read.call != asked.call) say(asked.call);
  for (const FigurePair& pair : figure_pairs(as_read, asked)) {
    if (pair.label != "Half up") say(change_of(pair));
  }
  if (said.empty()) said.emplace_back("None of these figures changes.");
  say(later_words(asked.decision, weeks_later));
  return said;
}

}  // namespace soilclock::advice
