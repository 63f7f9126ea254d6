// SPDX-License-Identifier: MIT
// "First seedlings seen on": what one such note says about a possible season.
#pragma once

#include "advice/data/first_seen_rule.hpp"
#include "emergence/emergence_curve.hpp"

namespace soilclock::advice {

/// Logarithm of how likely it is that the first seedlings are noted on a season day in a course. A course
/// that never reaches the share counts as if it did on the day after the season.
double first_seen_log_likelihood(const FirstSeenRule& rule, const emergence::EmergenceCurve& curve,
                                 int season_day);

}  // namespace soilclock::advice
