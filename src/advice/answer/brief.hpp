// SPDX-License-Identifier: MIT
// The few lines below a headline: why, until when, what next, for which plan, and the doubt that matters
// most.
#pragma once

#include <string>
#include <vector>

#include "advice/answer/words.hpp"

namespace soilclock::advice {

/// What waiting costs, in one sentence; empty where waiting is the advice or nothing is to be done.
std::string waiting_words(const TargetAnswer& answer);

/// The plan the answer is for and what it lacks, as one clause; empty where none is given.
std::string plan_words(const TargetAnswer& answer);

/// The lines in the order they are read; a target with nothing left has none.
std::vector<BriefLine> brief_lines(const TargetAnswer& answer, const WordContext& context);

}  // namespace soilclock::advice
