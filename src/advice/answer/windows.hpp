// SPDX-License-Identifier: MIT
// What the rules of thumb by percent emerged say: the kind they call for today and the windows of the season.
#pragma once

#include <vector>

#include "advice/answer/answer.hpp"
#include "advice/data/practice.hpp"
#include "advice/ensemble/middle_curve.hpp"
#include "advice/ensemble/target_run.hpp"

namespace soilclock::advice {

/// The kind that the rules of thumb by percent emerged call for (both shares in percent): nothing while too
/// little comes within the look-ahead, pre while little is up, post once most is up, pre+post between. They
/// inform; the decision is made from expected control.
std::optional<treatment::Kind> kind_by_percent(const Band<double>& emerged_percent, double expected_percent,
                                               const PracticeThresholds& thresholds);

/// The windows of a season: pre from the end of hold to the end of pre, pre+post from there to post, post
/// from there on (its end is the turf's green-up, which this does not know: left empty).
std::vector<Window> windows_of(const TargetRun& run, const MiddleCurve& middle,
                               const PracticeThresholds& thresholds, const DecisionRules& rules);

/// The day a share is reached: the middle curve's, with the spread of the members.
DateBand date_reaching(const TargetRun& run, const MiddleCurve& middle, double share);
inline DateBand date_reaching(const TargetRun& run, double share) {
  return date_reaching(run, MiddleCurve{run}, share);
}

/// The days the shares that answers name are reached, rising; with two dates where the component models stand
/// further apart than the rules bear.
std::vector<Milestone> milestones_of(const TargetRun& run, const MiddleCurve& middle,
                                     const DecisionRules& rules);

/// The day by which nine tenths of the main wave are up: the mean of the component models', with the members'
/// spread.
DateBand main_wave_over(const TargetRun& run);

}  // namespace soilclock::advice
