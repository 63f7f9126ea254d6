// SPDX-License-Identifier: MIT
#include "advice/answer/urgency.hpp"

#include <algorithm>
#include <limits>

namespace soilclock::advice {

namespace {

double urgency_of(const TargetAnswer& target) {
  return target.decision.action == Action::hold_after_treatment ? 0.0 : target.decision.urgency;
}

/// How unsure the expected control is; a target without one comes last.
double spread_of(const TargetAnswer& target) {
  const auto& control = target.decision.control;
  return control ? control->high - control->low : std::numeric_limits<double>::infinity();
}

}  // namespace

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
    const double lost_a = urgency_of(at(a));
    const double lost_b = urgency_of(at(b));
    return lost_a != lost_b ? lost_a > lost_b : spread_of(at(a)) < spread_of(at(b));
  });
  return ranked;
}

}  // namespace soilclock::advice
