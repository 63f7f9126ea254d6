// SPDX-License-Identifier: MIT
// What counts of the field changed in an answer.
#pragma once

#include "advice/answer/answer.hpp"
#include "advice/scouting/scouting.hpp"

namespace soilclock::advice {

/// Puts into the answer from the scouted run what it was before, and says in plain words what the counts did.
void explain_scouting(TargetAnswer& after, const TargetAnswer& before, const ScoutedRun& scouted);

}  // namespace soilclock::advice
