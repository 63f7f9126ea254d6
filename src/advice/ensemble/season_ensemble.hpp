// SPDX-License-Identifier: MIT
// The ensemble of one season: every member of every target, with what it was made from.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "advice/ensemble/target_plan.hpp"

namespace soilclock::advice {

/// How an ensemble is drawn.
struct EnsembleDraws {
  int members = 400;  ///< at least 1
  std::uint64_t seed = 1;
};

/// The members of a season for one or more targets of its kind.
struct SeasonEnsemble {
  Season season;
  Scenarios scenarios;
  std::vector<PlannedTarget> plans;  ///< of all targets, in the order asked for
  SeasonRuns runs;                   ///< of those that were not refused, in the same order
};

/// Runs a season as a site knows it on the day of the answer; a season that is over by then has one course of
/// weather. The catalogue must outlive the result.
SeasonEnsemble run_season(const SiteWeather& site, const SiteSoil& soil, const Season& season,
                          std::span<const emergence::Target* const> targets, const Catalogue& catalogue,
                          const EnsembleDraws& size);

}  // namespace soilclock::advice
