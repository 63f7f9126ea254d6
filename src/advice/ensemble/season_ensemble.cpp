// SPDX-License-Identifier: MIT
#include "advice/ensemble/season_ensemble.hpp"

namespace soilclock::advice {

SeasonEnsemble run_season(const SiteWeather& site, const SiteSoil& soil, const Season& season,
                          std::span<const emergence::Target* const> targets, const Catalogue& catalogue,
                          const EnsembleDraws& size) {
  const DayRange span{season.first - Days{emergence::lead_in_days}, season.end()};
  const StratifiedDraws draws{size.seed, size.members};
  SeasonEnsemble ensemble{
      season, Scenarios{site, catalogue.soil, catalogue.futures, soil, span, draws, size.seed}, {}, {}};
  std::vector<TargetJob> jobs;
  for (const emergence::Target* target : targets) {
    ensemble.plans.push_back(plan_target(catalogue, *target, season, site, soil, ensemble.scenarios));
    if (!ensemble.plans.back().refusal) jobs.push_back(ensemble.plans.back().job);
  }
  ensemble.runs = run_targets(jobs, season, ensemble.scenarios, draws, catalogue, site);
  return ensemble;
}

}  // namespace soilclock::advice
