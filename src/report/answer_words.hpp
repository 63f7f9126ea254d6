// SPDX-License-Identifier: MIT
// Values of an answer as clauses, the same in text and on pages.
#pragma once

#include <string>

#include "advice/answer/answer.hpp"

namespace soilclock::report {

/// "'Below 70 F' since Sep 28 (1 reversal)".
std::string rule_words(const advice::SoilRuleStatus& rule, bool us_units);

/// "Soil at 2 in (mixed): 65.2 F over seven days, give or take 1.5"; empty where not known.
std::string soil_words(const advice::SiteAnswer& site);

/// "measured through Oct 14, forecast through Oct 24".
std::string data_age_words(const advice::SiteAnswer& site);

}  // namespace soilclock::report
