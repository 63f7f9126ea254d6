// SPDX-License-Identifier: MIT
// "First seedlings seen on": what one such note says about a possible season.
#pragma once

#include <string>
#include <string_view>

#include "core/fraction.hpp"
#include "core/problem.hpp"
#include "emergence/course.hpp"

namespace soilclock::advice {

/// The numbers of models/scouting/first_seen.json.
struct FirstSeenRule {
  Fraction share_up;          ///< of the season's seedlings, when somebody first notices them
  double sd_days = 1.0;       ///< of the day of the note against the day that share is reached
  double says_nothing = 0.0;  ///< share of notes that say nothing about the season, 0..1
};

/// Reads the file. Problems (request): unknown or missing keys, a wrong unit, a number out of range or
/// without grounds.
Result<FirstSeenRule> read_first_seen_rule(std::string_view text, const std::string& file);

/// Logarithm of how likely it is that the first seedlings are noted on a season day in a course. A course
/// that never reaches the share counts as if it did on the day after the season.
double first_seen_log_likelihood(const FirstSeenRule& rule, const emergence::EmergenceCourse& course,
                                 int season_day);

}  // namespace soilclock::advice
