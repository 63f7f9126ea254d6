// SPDX-License-Identifier: MIT
// When to look again, and why.
#pragma once

#include <optional>

#include "advice/answer/answer.hpp"
#include "core/season.hpp"

namespace soilclock::advice {

/// The next day worth looking at the turf or at this answer; nothing where no date can be known.
std::optional<DatedReason> next_look(const TargetAnswer& answer, SeasonKind kind, Day on,
                                     const DecisionRules& rules);

}  // namespace soilclock::advice
