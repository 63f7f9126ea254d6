// SPDX-License-Identifier: MIT
#include "advice/comparison/changed_answer.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "core/number_text.hpp"

namespace soilclock::advice {

namespace {

std::optional<Day> half_up_of(const TargetAnswer& target) {
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
std::string change_of(const Figure& as_read, const Figure& asked) {
  if (as_read.text == asked.text) return "";
  const auto said = [](const Figure& figure) { return figure.text.empty() ? "none" : figure.text; };
  return fmt::format("{}: {} instead of {}.", asked.label, said(asked), said(as_read));
}

std::string later_words(const Decision& decision, int weeks_later) {
  if (weeks_later < 1 || weeks_later > static_cast<int>(decision.cost_of_waiting.size())) return "";
  const auto& cost = decision.cost_of_waiting[static_cast<std::size_t>(weeks_later) - 1];
  const std::string when = weeks_later == 1 ? "one week" : count_words(weeks_later) + " weeks";
  if (!cost) return fmt::format("The cost of waiting {} is not known.", when);
  return fmt::format("Waiting {} costs at most {} of expected control.", when, cost_words(cost));
}

}  // namespace

std::vector<Figure> compared_figures(const TargetAnswer& target) {
  const Decision& decision = target.decision;
  std::vector<Figure> figures{{"Half up", day_words(half_up_of(target))},
                              {"Up today, of 100", percent_words(target.emerged_percent.middle)},
                              {"Best weeks", best_words(decision)},
                              {"Kind", kind_words(decision)},
                              {"Expected control", control_words(decision)}};
  for (std::size_t i = 0; i < decision.cost_of_waiting.size(); ++i) {
    figures.push_back({fmt::format("Lost by waiting {} week{}", i + 1, i == 0 ? "" : "s"),
                       cost_words(decision.cost_of_waiting[i])});
  }
  return figures;
}

std::vector<std::string> what_changed(const TargetAnswer& as_read, const TargetAnswer& asked,
                                      int weeks_later) {
  std::vector<std::string> said;
  const auto say = [&](std::string sentence) {
    if (!sentence.empty()) said.push_back(std::move(sentence));
  };
  say(half_up_change(half_up_of(as_read), half_up_of(asked)));
  if (as_read.call != asked.call) say(asked.call);
  const std::vector<Figure> before = compared_figures(as_read);
  const std::vector<Figure> after = compared_figures(asked);
  for (std::size_t i = 1; i < after.size(); ++i) say(change_of(before[i], after[i]));  // half up is said
  if (said.empty()) said.emplace_back("None of these figures changes.");
  say(later_words(asked.decision, weeks_later));
  return said;
}

}  // namespace soilclock::advice
