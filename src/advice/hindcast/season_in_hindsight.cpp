// SPDX-License-Identifier: MIT
#include "advice/hindcast/season_in_hindsight.hpp"

#include <utility>

namespace soilclock::advice {

namespace {

bool no_single_wave(const PlannedTarget& plan) {
  const auto& rule = plan.target->single_window;
  return rule && plan.climate && single_window_share(*plan.climate, *rule) <= 0.0;
}

}  // namespace

std::optional<SeenSeason> season_known(SiteWeather site, const Season& season,
                                       std::span<const emergence::Target* const> targets,
                                       const Catalogue& catalogue, const EnsembleDraws& size) {
  if (complete_since(site) >= site.outlook_start) return std::nullopt;
  SiteSoil soil = site_soil(site, catalogue.soil);
  SeasonEnsemble ensemble = run_season(site, soil, season, targets, catalogue, size);
  for (const PlannedTarget& plan : ensemble.plans) {
    if (!no_single_wave(plan)) continue;
    std::erase_if(ensemble.runs.targets, [&](const TargetRun& run) { return run.job.target == plan.target; });
  }
  return SeenSeason{std::move(site), std::move(soil), std::move(ensemble)};
}

std::optional<SeenSeason> in_hindsight(const SiteHistory& history, const Season& season,
                                       std::span<const emergence::Target* const> targets,
                                       const Catalogue& catalogue, const EnsembleDraws& size) {
  if (history.end < season.end()) return std::nullopt;
  return season_known(known_on(history, season.end(), 0, catalogue.futures), season, targets, catalogue,
                      size);
}

}  // namespace soilclock::advice
