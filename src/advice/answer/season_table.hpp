// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "advice/answer/season_days.hpp"
#include "advice/answer/target_decision.hpp"

namespace soilclock::advice {

/// The day table of a season: soil, rain, what is up and how old it is, and what is left of the residuals
/// noted before the day of the answer.
std::vector<SeasonDay> season_table(const DecisionInputs& inputs);

}  // namespace soilclock::advice
