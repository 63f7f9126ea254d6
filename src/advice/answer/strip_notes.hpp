// SPDX-License-Identifier: MIT
// Strip checks of the season beside what was expected of the applications before them.
#pragma once

#include "advice/answer/target_decision.hpp"

namespace soilclock::advice {

/// Puts the strip checks of the answer's target and season, dated before the day of the answer, among its
/// notes. Expected is the share of the seedlings that came up by the day of the check, or would have, that
/// the applications noted before that day control; left out where none was noted.
void add_strip_notes(TargetAnswer& answer, const DecisionInputs& inputs);

}  // namespace soilclock::advice
