// SPDX-License-Identifier: MIT
// What each week and kind of treatment would reach, over the members of a target's ensemble.
#pragma once

#include <optional>
#include <span>

#include "advice/answer.hpp"
#include "advice/target_run.hpp"

namespace soilclock::advice {

/// Empty for targets whose growth model counts days instead of leaves: the kill matrix is by leaves. `logged`
/// are the applications of this season. Costs a pass over the season for every member, week and kind.
std::optional<ReachAnswer> reach_answer(const TargetRun& run, const SeasonRuns& runs,
                                        const Scenarios& scenarios, const Catalogue& catalogue,
                                        std::span<const treatment::LoggedApplication> logged, Day on,
                                        std::uint64_t seed);

}  // namespace soilclock::advice
