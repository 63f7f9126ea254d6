// SPDX-License-Identifier: MIT
// What earlier seasons taught, in one sentence.
#pragma once

#include <string>

#include "advice/ensemble/target_run.hpp"
#include "advice/scouting/earlier_season.hpp"

namespace soilclock::advice {

/// From how many seasons, how far off the models were, how the day by which half are up moves from the run
/// before to the one after, and which model gained most. `before` and `after` are as in learned_run.
std::string learned_words(const Learned& learned, const TargetRun& before, const TargetRun& after);

/// The first of it, as a clause. Seasons whose notes more likely than not say nothing are named as left
/// aside.
std::string learned_clause(const Learned& learned);

/// "3 earlier seasons noted here and 2 at neighbors".
std::string seasons_words(const Learned& learned);

/// "about 6 days later than the models said"; "on the days the models said" where it is less than one.
std::string models_off_words(double days_later);

}  // namespace soilclock::advice
