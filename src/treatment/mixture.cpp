// SPDX-License-Identifier: MIT
#include "treatment/mixture.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::treatment {

namespace {

std::pair<int, int> ordered(int a, int b) { return {std::min(a, b), std::max(a, b)}; }

/// Killed of plants on which all of `actions` work, at one stage: never less than the best of the actions or
/// of the pairs in them that reach all of Colby's expectation.
double kill_of_susceptible(std::span<const FoliarAction> actions, std::size_t stage,
                           const MixtureRule& rule) {
  const auto left_by = [&](std::size_t i) { return 1.0 - actions[i].kill[stage].value(); };
  double left = 1.0;
  double best_alone = 0.0;
  double best_pair = 0.0;
  for (std::size_t i = 0; i < actions.size(); ++i) {
    left *= left_by(i);
    best_alone = std::max(best_alone, 1.0 - left_by(i));
    for (std::size_t j = 0; j < i; ++j) {
      if (rule.full_expectation.contains(ordered(actions[i].group, actions[j].group)))
        best_pair = std::max(best_pair, 1.0 - left_by(i) * left_by(j));
    }
  }
  if (actions.size() < 2) return best_alone;
  const double together = std::max(rule.share_of_expectation * (1.0 - left), best_pair);
  return std::max(best_alone, std::min(together, rule.cap.value()));
}

PointsByGroups read_points_by_groups(const JsonObject& item) {
  const std::vector<double> points = item.numbers("points");
  if (points.size() != PointsByGroups{}.size() || !std::is_sorted(points.begin(), points.end()))
    item.refuse("points", "these are not the points of none, one, two and three groups",
                "four numbers that never fall");
  (void)read_grounds(item);
  item.finish();
  return {points[0], points[1], points[2], points[3]};
}

MixPoints read_points(const JsonObject& top) {
  const auto points = [&](std::string_view key) {
    return read_parameter(top, key, "points", {0, 100}).value;
  };
  MixPoints rule;
  rule.on_plants_up = read_points_by_groups(top.object("points_on_plants_up"));
  rule.on_plants_to_come = read_points_by_groups(top.object("points_on_plants_to_come"));
  rule.shared_work = points("shared_work");
  rule.alone_once = points("alone_once");
  rule.alone_remembered_seasons = read_whole(top, "alone_remembered", "seasons", {1, 50});
  rule.date_inside = points("date_inside");
  rule.date_near = points("date_near");
  rule.escapes = points("escapes");
  rule.practice = points("practice");
  rule.practices_counted = read_whole(top, "practices_counted", "practices", {0, 20});
  rule.usual_from = points("usual_from");
  rule.usual_to = points("usual_to");
  const double all = rule.on_plants_up.back() + rule.on_plants_to_come.back() + rule.shared_work +
                     rule.date_inside + rule.escapes + rule.practice * rule.practices_counted;
  if (std::abs(all - 100.0) > 1e-9) {
    top.refuse("", fmt::format("the best plan scores {:g} points", all), "100 points in all",
               "change the points of one item with those of another");
  }
  return rule;
}

}  // namespace

Result<MixtureRule> read_mixture_rule(std::string_view json, const std::string& file) {
  return read_json(json, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-mixtures/1");
    MixtureRule rule;
    rule.share_of_expectation = read_parameter(top, "share_of_expectation", "1", {0, 1}).value;
    rule.cap = Fraction::from_percent(read_parameter(top, "cap", "%", {0, 100}).value);
    rule.points = read_points(top);
    for (const JsonObject& item : top.optional_objects("full_expectation")) {
      const std::vector<double> groups = item.numbers("groups");
      if (groups.size() != 2) item.refuse("groups", "a pair of groups is two numbers", "such as [5, 27]");
      rule.full_expectation.insert(ordered(static_cast<int>(groups[0]), static_cast<int>(groups[1])));
      (void)read_grounds(item);
      item.finish();
    }
    top.finish();
    return rule;
  });
}

KillByStage combined_kill(std::span<const FoliarAction> actions, const MixtureRule& rule) {
  // In order of rising resistance, plants fall into strata: those below the first share withstand all
  // actions, those between the first and the second all but the first, and so on.
  std::vector<FoliarAction> ordered_actions(actions.begin(), actions.end());
  std::stable_sort(ordered_actions.begin(), ordered_actions.end(),
                   [](const FoliarAction& a, const FoliarAction& b) { return a.resistant < b.resistant; });
  KillByStage kill{};
  for (std::size_t stage = 0; stage < emergence::stage_count; ++stage) {
    double sum = 0.0;
    for (std::size_t working = 1; working <= ordered_actions.size(); ++working) {
      const double from = ordered_actions[working - 1].resistant.value();
      const double to = working < ordered_actions.size() ? ordered_actions[working].resistant.value() : 1.0;
      if (to <= from) continue;
      sum += (to - from) * kill_of_susceptible(std::span{ordered_actions}.first(working), stage, rule);
    }
    kill[stage] = Fraction::of(std::min(sum, 1.0));
  }
  return kill;
}

}  // namespace soilclock::treatment
