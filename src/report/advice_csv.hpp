// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>
#include <vector>

#include "advice/answer/answer.hpp"

namespace soilclock::report {

/// One row a site and target, for spreadsheets; Celsius and percent, dates "YYYY-MM-DD", empty where there is
/// no value.
std::string advice_csv(std::span<const advice::SiteAnswer> sites);

}  // namespace soilclock::report
