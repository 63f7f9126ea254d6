// SPDX-License-Identifier: MIT
// What is worth saying about entries that were just noted.
#pragma once

#include <string>
#include <vector>

#include "advice/data/catalogue.hpp"
#include "records/store.hpp"

namespace soilclock::app {

/// Slips that are no errors: a day to come, a target or an active nobody knows, a site that looks like
/// another one. `before` is what the file held already. Each thing is said once.
std::vector<std::string> remarks_on(const std::vector<records::Record>& noted,
                                    const std::vector<records::Entry>& before, Day today,
                                    const advice::Catalogue& catalogue);

}  // namespace soilclock::app
