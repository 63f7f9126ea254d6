// SPDX-License-Identifier: MIT
// One season of annual bluegrass at the made-up site, with a few members: everything a decision is made from.
#pragma once

#include "advice/answer/target_decision.hpp"
#include "advice/futures/scenarios.hpp"
#include "made_up_site.hpp"

namespace soilclock::tests {

/// Seven years of air before the day of the answer.
inline weather::DailyWeather wavy_record(Day on) {
  const Day first = on - Days{7 * 366};
  const Noise noise{first, 7 * 366, 4.0, 0.7};
  return air_of({first, on}, [&](Day day) { return annual_wave(day, 13.0, 11.0) + noise.on(day); });
}

/// Owns what it points into: it stays where it was made.
class MadeUpSeason {
 public:
  MadeUpSeason(Day on, int members, advice::SiteWeather known)
      : site{std::move(known)},
        season{season_of(on, SeasonKind::fall, Hemisphere::north)},
        draws_{1, members},
        scenarios{site,
                  shipped_catalogue().soil,
                  shipped_catalogue().futures,
                  advice::site_soil(site, shipped_catalogue().soil),
                  {season.first - Days{emergence::lead_in_days}, season.end()},
                  draws_,
                  1} {
    const advice::Catalogue& catalogue = shipped_catalogue();
    const emergence::Target& target = catalogue.targets.at("POAAN");
    const advice::TargetJob job{&target,
                                &catalogue.growth.at(target.growth),
                                {{&catalogue.emergence.at("POAAN_soil_crossing"), 1.0}}};
    runs = advice::run_targets({job}, season, scenarios, draws_, catalogue, site);
  }
  MadeUpSeason(Day on, int members) : MadeUpSeason{on, members, site_with(wavy_record(on), on)} {}
  MadeUpSeason(const MadeUpSeason&) = delete;
  MadeUpSeason& operator=(const MadeUpSeason&) = delete;

  const advice::TargetRun& run() const { return runs.targets.front(); }

  advice::SiteWeather site;
  Season season;

 private:
  advice::StratifiedDraws draws_;

 public:
  advice::Scenarios scenarios;
  advice::SeasonRuns runs;
};

}  // namespace soilclock::tests
