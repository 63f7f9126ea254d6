// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "core/dates.hpp"
#include "core/problem.hpp"

namespace soilclock::app {

/// The day written behind an option as YYYY-MM-DD. Other ways of writing it are refused, since 5/10 is two
/// days; the request problem then offers the day or days that can have been meant.
Result<Day> read_day(const std::string& option, const std::string& text);

}  // namespace soilclock::app
