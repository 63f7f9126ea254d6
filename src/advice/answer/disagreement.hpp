// SPDX-License-Identifier: MIT
// Whether the component models, or the members, tell two different stories about what is up today.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>

#include "advice/answer/answer.hpp"
#include "advice/ensemble/target_run.hpp"

namespace soilclock::advice {

/// A short clause for the headline when component models that count stand far apart or the members form two
/// humps: "models disagree: 20 to 55% emerged"; nothing otherwise.
std::optional<std::string> disagreement(const TargetAnswer& answer, const TargetRun& run, Day on,
                                        const DecisionRules& rules);

/// The decision that some of the members, by index, would give.
using DecisionOf = std::function<Decision(std::span<const std::size_t>)>;

/// Whether the component models that count, each on its own, would name different kinds.
bool models_name_different_kinds(const TargetRun& run, const DecisionRules& rules,
                                 const DecisionOf& decision_of);

}  // namespace soilclock::advice
