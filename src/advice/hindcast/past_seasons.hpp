// SPDX-License-Identifier: MIT
// The seasons of a site's own record that are over: when their seedlings came up and which week would have
// been best, by the same stages and the same decision as the answer's.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "advice/answer/season_days.hpp"
#include "advice/answer/site_state.hpp"
#include "advice/hindcast/hindcast_history.hpp"
#include "treatment/tank_plan.hpp"

namespace soilclock::advice {

/// What past seasons are decided for: the answer's own plan and turf. Everything must outlive the call.
struct HindsightQuestion {
  const TurfFacts* turf_facts = nullptr;
  const treatment::TankPlan* plan = nullptr;
  const treatment::ResistantShares* resistant = nullptr;
  std::uint64_t seed = 1;
};

/// For each target the seasons before `season` (its kind is theirs), oldest first, each run with its weather
/// known to its end and earlier years only. Left out: seasons of which a day is not known, and those in which
/// no single wave can be named.
std::vector<std::vector<SeasonSummary>> past_seasons(const SiteHistory& history, const Season& season,
                                                     std::span<const emergence::Target* const> targets,
                                                     const Catalogue& catalogue,
                                                     const HindsightQuestion& question);

/// The middle of the past seasons, and how far off it the 50 percent of this season's milestones lie. Nothing
/// with fewer seasons than the practice file asks for.
std::optional<UsualSeason> usual_season(std::span<const SeasonSummary> past, const Season& season,
                                        std::span<const Milestone> milestones, const PastSeasonRules& rules);

}  // namespace soilclock::advice
