// SPDX-License-Identifier: MIT
// The day table behind an answer.
#pragma once

#include <string>
#include <vector>

#include "advice/answer/answer.hpp"

namespace soilclock::report {

/// The "soilclock-season" document, version 1; Celsius, mm, percent.
std::string season_json(const std::vector<advice::SiteAnswer>& sites, Day on);
std::string season_text(const std::vector<advice::SiteAnswer>& sites, bool us_units);
std::string season_csv(const std::vector<advice::SiteAnswer>& sites);

}  // namespace soilclock::report
