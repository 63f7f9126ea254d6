// SPDX-License-Identifier: MIT
// One series of an answer where a single one is wanted.
#pragma once

#include <string>

#include "core/problem.hpp"
#include "weather/services/service_answer.hpp"

namespace soilclock::weather {

/// The first series of the point or station wanted (its own name in the answer, or its number in the order
/// asked for, from 0), else the first of all; a doubt counts the points, models and members left out. Error:
/// the answer has no such point.
Result<ParsedFile> choose_series(ServiceAnswer answer, const std::string& wanted);

}  // namespace soilclock::weather
