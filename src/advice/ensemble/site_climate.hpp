// SPDX-License-Identifier: MIT
// What the site's own seasons say about whether, and by which models, a single main wave can be named.
#pragma once

#include <optional>
#include <vector>

#include "advice/futures/scenarios.hpp"
#include "emergence/target.hpp"

namespace soilclock::advice {

/// Medians over the site's past seasons and the present one (each once).
struct SiteClimate {
  Temperature warmest_month_soil;  ///< highest 30-day mean of 5 cm soil early in the season; a poor estimate
                                   ///< (outside its area, nothing measured) is taken low by its error
  std::optional<int> usual_crossing_day;  ///< season day of the first lasting run at or below the crossing
  double cool_days = 0.0;                 ///< days of a season with a 7-day mean at or below the crossing
  Temperature july_air;                   ///< normal mean of mid-July (mid-January south)
  double late_cooling = 0.0;  ///< 0..1: how late the cooling sum reaches the rule's units, see CoolingMark
  int seasons = 0;            ///< how many past seasons counted beside the present one
};

/// A sum of cooling degree-days from the season's start, the temperature it counts down from, and the season
/// days between which its coming turns from too early to late enough.
struct CoolingMark {
  DegreeDays units;
  Temperature below;
  int early_day = 0;
  int late_day = 0;
};

/// `rule` says which crossing and spans; `mark` is the cooling sum whose date is wanted, if any.
SiteClimate site_climate(const SiteWeather& site, const SiteSoil& soil, const Scenarios& scenarios,
                         const Season& season, const emergence::SingleWindowRule& rule,
                         const std::optional<CoolingMark>& mark, const FutureRules& futures);

/// 0: no single window can be named; 1: fully; between, summers are barely warm enough.
double single_window_share(const SiteClimate& climate, const emergence::SingleWindowRule& rule);

}  // namespace soilclock::advice
