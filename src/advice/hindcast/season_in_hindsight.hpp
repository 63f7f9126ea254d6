// SPDX-License-Identifier: MIT
// A season of the record run again once it is over.
#pragma once

#include <optional>
#include <span>

#include "advice/ensemble/season_ensemble.hpp"
#include "advice/hindcast/hindcast_history.hpp"

namespace soilclock::advice {

/// A season's ensemble with the site as it was known.
struct SeenSeason {
  SiteWeather site;
  SiteSoil soil;
  SeasonEnsemble ensemble;  ///< targets whose models do not apply have no run
};

/// A season as a site knew it on a morning. Targets that are refused, and those of which no single wave can
/// be named, have no run; nothing when the day before is not known.
std::optional<SeenSeason> season_known(SiteWeather site, const Season& season,
                                       std::span<const emergence::Target* const> targets,
                                       const Catalogue& catalogue, const EnsembleDraws& size);

/// A season with its weather known to its end, holes closed from what had been seen by then; nothing when the
/// record does not reach that far or its last day is not known.
std::optional<SeenSeason> in_hindsight(const SiteHistory& history, const Season& season,
                                       std::span<const emergence::Target* const> targets,
                                       const Catalogue& catalogue, const EnsembleDraws& size);

}  // namespace soilclock::advice
