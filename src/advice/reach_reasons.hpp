// SPDX-License-Identifier: MIT
#pragma once

#include "advice/answer.hpp"

namespace soilclock::advice {

/// Adds to an answer the sentences about reach: what this week calls for and reaches, the best week, what
/// waiting costs and which limit acts on each side; and what the turf's state means for it.
void explain_reach(TargetAnswer& answer, const std::optional<treatment::TurfReading>& turf);

}  // namespace soilclock::advice
