// SPDX-License-Identifier: MIT
// What earlier seasons taught about sites.
#pragma once

#include <string>
#include <vector>

#include "advice/answer/answer.hpp"

namespace soilclock::report {

/// The "soilclock-learned" document, version 1; days and shares of 1.
std::string learned_json(const std::vector<advice::SiteAnswer>& sites, Day on);
std::string learned_text(const std::vector<advice::SiteAnswer>& sites);
/// A line a season.
std::string learned_csv(const std::vector<advice::SiteAnswer>& sites);

}  // namespace soilclock::report
