// SPDX-License-Identifier: MIT
#include "advice/answer/disagreement.hpp"
#include "core/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace soilclock::advice {

namespace {

/// Percent up at the end of the day before.
std::vector<double> emerged_by_member(const TargetRun& run, Day on) {
  const int yesterday = run.season.day_of_season(on) - 1;
  std::vector<double> percent;
  for (const TargetMember& member : run.members) percent.push_back(100.0 * member.curve.at(yesterday));
  return percent;
}

/// The ends of the widest gap that leaves enough members on both sides; nothing when it is not wide enough.
std::optional<std::pair<double, double>> two_humps(std::vector<double> percent, const DecisionRules& rules) {
  std::sort(percent.begin(), percent.end());
  const auto least = static_cast<std::size_t>(rules.hump_share * static_cast<double>(percent.size()));
  std::optional<std::pair<double, double>> widest;
  for (std::size_t i = std::max<std::size_t>(least, 1); i + least <= percent.size() && i < percent.size();
       ++i) {
    const double gap = percent[i] - percent[i - 1];
    if (gap >= rules.hump_gap && (!widest || gap > widest->second - widest->first))
      widest = {percent[i - 1], percent[i]};
  }
  return widest;
}

}  // namespace

std::optional<std::string> disagreement(const TargetAnswer& answer, const TargetRun& run, Day on,
                                        const DecisionRules& rules) {
  double least = 100.0;
  double most = 0.0;
  for (const ModelShare& model : answer.models) {
    if (model.weight < rules.models_weight) continue;
    least = std::min(least, model.percent);
    most = std::max(most, model.percent);
  }
  if (most - least > rules.models_apart)
    return fmt::format("models disagree: {} to {}% emerged", number_text(least, 0), number_text(most, 0));
  if (const auto humps = two_humps(emerged_by_member(run, on), rules)) {
    return fmt::format("two stories fit: at most {}% emerged, or at least {}%", number_text(humps->first, 0),
                       number_text(humps->second, 0));
  }
  return std::nullopt;
}

bool models_name_different_kinds(const TargetRun& run, const DecisionRules& rules,
                                 const DecisionOf& decision_of) {
  std::set<std::optional<treatment::Kind>> kinds;
  for (std::size_t model = 0; model < run.job.models.size(); ++model) {
    if (run.job.models[model].weight < rules.models_weight) continue;
    std::vector<std::size_t> members;
    for (std::size_t i = 0; i < run.members.size(); ++i) {
      if (run.members[i].model == model) members.push_back(i);
    }
    if (!members.empty()) kinds.insert(decision_of(members).kind);
  }
  return kinds.size() > 1;
}

}  // namespace soilclock::advice
