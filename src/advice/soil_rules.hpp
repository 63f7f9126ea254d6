// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "advice/answer.hpp"
#include "advice/practice.hpp"
#include "advice/scenarios.hpp"

namespace soilclock::advice {

/// The soil habits of a target as the site's soil stands in the morning of the answer. Looked at from 1
/// August on for fall species and 1 February on for summer annuals (half a year later in the south): before,
/// cool summer nights and warm winter spells would count.
std::vector<SoilRuleReading> read_soil_rules(const Practice& practice, const std::string& target,
                                             const Season& season, const SiteWeather& site,
                                             const SiteSoil& soil);

/// Remark "soil-date-moved" for each habit whose day, as `readings` of read_soil_rules have it, is another
/// than the one that followed from the probe readings up to each day: what was said before does not move in
/// silence.
std::vector<Remark> dates_moved_by_later_readings(const std::vector<SoilRuleReading>& readings,
                                                  const Practice& practice, const std::string& target,
                                                  const Season& season, const SiteWeather& site,
                                                  const SiteSoil& soil);

}  // namespace soilclock::advice
