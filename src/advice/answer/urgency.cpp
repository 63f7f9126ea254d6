// SPDX-License-Identifier: MIT
#include "advice/answer/urgency.hpp"

#include <algorithm>
#include <limits>

namespace soilclock::advice {

Urgency urgency_of(const TargetAnswer& target) {
  const bool held = target.decision.action == Action::hold_after_treatment;
  const auto& control = target.decision.control;
  return {held ? 0.0 : target.decision.urgency,
          control ? control->high - control->low : std::numeric_limits<double>::infinity()};
}

bool more_urgent(const Urgency& one, const Urgency& other) {
  return one.lost != other.lost ? one.lost > other.lost : one.spread < other.spread;
}

bool still_open(const TargetAnswer& target) {
  return !target.refusal && target.decision.action != Action::nothing_left &&
         target.decision.action != Action::no_answer;
}

std::vector<RankedTarget> by_urgency(std::span<const SiteAnswer> answers) {
  std::vector<RankedTarget> ranked;
  for (std::size_t site = 0; site < answers.size(); ++site) {
    for (std::size_t target = 0; target < answers[site].targets.size(); ++target) {
      if (still_open(answers[site].targets[target])) ranked.push_back({site, target});
    }
  }
  const auto at = [&](const RankedTarget& entry) -> const TargetAnswer& {
    return answers[entry.site].targets[entry.target];
  };
  std::stable_sort(ranked.begin(), ranked.end(), [&](const RankedTarget& a, const RankedTarget& b) {
    return more_urgent(urgency_of(at(a)), urgency_of(at(b)));
  });
  return ranked;
}

}  // namespace soilclock::advice
