// SPDX-License-Identifier: MIT
// What a treatment noted this season means for the weeks ahead.
#pragma once

#include <span>

#include "advice/answer/target_decision.hpp"

namespace soilclock::advice {

/// Puts what the latest application still covers, when to look for survivors and when a second residual is
/// due into the answer. A foliar treatment of the last weeks holds everything else until its effect can be
/// judged.
void add_after_application(TargetAnswer& answer, const DecisionInputs& inputs,
                           std::span<const ActingApplication> acting, const SeasonControl& control);

}  // namespace soilclock::advice
