// SPDX-License-Identifier: MIT
// What a note of the first seedlings is worth.
#pragma once

#include <string>
#include <string_view>

#include "core/fraction.hpp"
#include "core/problem.hpp"

namespace soilclock::advice {

/// The numbers of models/scouting/first_seen.json.
struct FirstSeenRule {
  Fraction share_up;          ///< of the season's seedlings, when somebody first notices them
  double sd_days = 0.0;       ///< of the day of the note against the day that share is reached
  double says_nothing = 0.0;  ///< share of notes that say nothing about the season, 0..1
};

/// Reads the file. Problems (request): unknown or missing keys, a wrong unit, a number out of range or
/// without grounds.
Result<FirstSeenRule> read_first_seen_rule(std::string_view text, const std::string& file);

}  // namespace soilclock::advice
