// SPDX-License-Identifier: MIT
#pragma once

#include "advice/answer/target_answer.hpp"

namespace soilclock::advice {

/// Adds to an answer, whose figures are complete, the sentences that say why and the remarks that say how far
/// to trust it.
void explain(TargetAnswer& answer, const TargetRun& run, const AnswerContext& context);

}  // namespace soilclock::advice
