// SPDX-License-Identifier: MIT
// Earlier seasons with notes of seedlings, run again with their own weather and held against what was noted.
#pragma once

#include <span>
#include <vector>

#include "advice/ensemble/season_ensemble.hpp"
#include "advice/hindcast/hindcast_history.hpp"
#include "advice/scouting/earlier_season.hpp"
#include "advice/site/site_log.hpp"

namespace soilclock::advice {

/// For each target (all of the season's kind) the seasons before `season` of which the log holds notes,
/// oldest first, at most as many as the rules let count. A season is run with its weather known to its end
/// and earlier years only. Left out: seasons the record does not reach, and those in which no single wave can
/// be named. Without notes nothing is run.
std::vector<std::vector<EarlierSeason>> earlier_seasons(const SiteHistory& history, const Season& season,
                                                        std::span<const emergence::Target* const> targets,
                                                        const SiteLog& log, const Catalogue& catalogue,
                                                        const EnsembleDraws& size);

}  // namespace soilclock::advice
