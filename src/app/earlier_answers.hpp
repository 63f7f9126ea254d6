// SPDX-License-Identifier: MIT
// What reports said before, stored in the records file: a report adds what it says, and an answer tells what
// changed since.
#pragma once

#include <string>
#include <vector>

#include "advice/answer/answer.hpp"
#include "advice/data/practice.hpp"

namespace soilclock::app {

/// Fills in what changed since the latest report before the answer's day and which calendar events no longer
/// hold, where the records file named, or the user's own, is there and holds one. Problem (data): the file
/// holds what no version of this program writes. Problems of opening it: see records::Store::open.
Checked add_changes(const std::string& records_file, const advice::ChangeRules& rules,
                    advice::SiteAnswer& answer);

/// Stores what the answers say, in the place of what was said for the same day, where the records file named,
/// or the user's own, is there. Problem (environment): it cannot be written.
Checked store_said(const std::string& records_file, const std::vector<advice::SiteAnswer>& answers);

}  // namespace soilclock::app
