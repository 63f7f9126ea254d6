// SPDX-License-Identifier: MIT
// The tables people read, and the cases as CSV.
#pragma once

#include <string>
#include <vector>

#include "obey/scores.hpp"

namespace soilclock::obey {

/// One target: a row a plan, all plans together, seasons off the usual, the aims and the worst seasons.
/// Returns whether the bar on the mean over all plans holds and every season had a word to treat.
bool print_target(const TargetSettings& target, const Walked& walked, const Aims& aims, double bar);

/// One line a case, first line the names.
std::string csv_of(const std::vector<Case>& cases);

}  // namespace soilclock::obey
