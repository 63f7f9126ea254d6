// SPDX-License-Identifier: MIT
// What the turf and the days of the week say to a treatment, whatever the target.
#pragma once

#include "advice/answer/answer.hpp"
#include "advice/data/catalogue.hpp"
#include "advice/futures/scenarios.hpp"
#include "advice/site/site_log.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::advice {

/// The site's turf and surroundings as the user describes them.
struct TurfFacts {
  std::optional<treatment::TurfSpecies> species;
  std::optional<Day> overseed_on;
  bool slope_to_green = false;
  std::optional<double> utc_offset_hours;  ///< of the clock of the hourly readings; empty: by longitude
};

/// The turf's likely state this morning; empty without a species it can be estimated for.
std::optional<treatment::TurfAssessment> turf_today(const SiteWeather& site, const SiteSoil& soil,
                                                    const TurfFacts& facts, const SiteLog& log,
                                                    const Catalogue& catalogue);

/// The coming seven days from the morning of the answer, judged for the kind of treatment the week calls for.
SprayWeek spray_week(const SiteWeather& site, std::span<const weather::HourlyObservation> hours,
                     treatment::Kind kind, const TurfFacts& facts, const Catalogue& catalogue);

/// Warnings about seed that is to grow and greens below a slope.
std::vector<Remark> site_cautions(const SiteWeather& site, const TurfFacts& facts, const SiteLog& log,
                                  const Catalogue& catalogue);

/// The sentence that must stand before all advice where seed has been sown or is about to be; empty
/// elsewhere.
std::optional<std::string> seed_first(const SiteWeather& site, const TurfFacts& facts,
                                      const treatment::GateRules& gates);

}  // namespace soilclock::advice
