// SPDX-License-Identifier: MIT
// Checks of files against each other. Every function throws JsonProblem with file and JSON place.
#pragma once

#include <map>
#include <string>

#include "advice/data/catalogue.hpp"

namespace soilclock::advice {

/// Every "source" of a file names one of the sources.
void demand_known_sources(const NamedText& file, const std::map<std::string, Source, std::less<>>& sources);

/// Models, growth models and targets that are named exist, answer for the target that names them, and state
/// the scale of what they follow as it is; no plain name belongs to two targets.
void demand_references(const Catalogue& catalogue);

}  // namespace soilclock::advice
