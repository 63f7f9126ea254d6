// SPDX-License-Identifier: MIT
// What all kinds of scouting notes are worth.
#pragma once

#include "advice/data/count_rule.hpp"
#include "advice/data/earlier_season_rule.hpp"
#include "advice/data/first_seen_rule.hpp"

namespace soilclock::advice {

struct ScoutingRules {
  FirstSeenRule first_seen;
  CountRule counts;
  EarlierSeasonRule earlier_seasons;
};

}  // namespace soilclock::advice
