// SPDX-License-Identifier: MIT
// From the share emerged to what may be done: today's state and the windows of the season.
#pragma once

#include <vector>

#include "advice/answer.hpp"
#include "advice/practice.hpp"
#include "advice/target_run.hpp"

namespace soilclock::advice {

/// State by the share up this morning and the share expected up after the look-ahead (both percent): hold
/// while too little comes, pre while little is up, post once most is up, pre+post between. The middle
/// decides: with little up a foliar part has little to kill, so that a wide band calls for a look at the
/// ground (see reasons.hpp), not for a different treatment.
State state_of(const Band<double>& emerged_percent, double expected_percent,
               const PracticeThresholds& thresholds);

/// Whether nothing is left to time in a season: all are up and hardly any is young. What still stands is a
/// matter of mature plants, for which no week is better by the seedlings.
bool season_over(const TargetAnswer& answer);

/// The windows of a season: pre from the end of hold to the end of pre, pre+post from there to post, post
/// from there on (its end is the turf's green-up, which this does not know: left empty).
std::vector<Window> windows_of(const TargetRun& run, const PracticeThresholds& thresholds);

/// The day a share is reached, over the members.
DateBand date_reaching(const TargetRun& run, double share);

/// The day by which nine tenths of the main wave are up.
DateBand main_wave_over(const TargetRun& run);

}  // namespace soilclock::advice
