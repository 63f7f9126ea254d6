// SPDX-License-Identifier: MIT
// What turf, ground and weather stop in the weeks ahead, over the members of an ensemble.
#pragma once

#include <span>
#include <vector>

#include "advice/decision/decision.hpp"
#include "advice/ensemble/target_run.hpp"
#include "treatment/gates.hpp"
#include "treatment/turf_state.hpp"

namespace soilclock::advice {

/// What is known of turf and plan beside the weather.
struct GateFacts {
  std::optional<treatment::TurfSpecies> species;
  std::optional<treatment::TurfAssessment> turf;  ///< this morning
  std::optional<Day> overseed_on;
  std::optional<double> seeding_weeks;  ///< of the plan's residuals; empty: not known
  std::vector<int> residual_groups;     ///< of the plan; empty: not known
};

/// The gates of one week that hold in enough of the members, those that stop first, and whether each part is
/// stopped. Cold and frost must last through all days of a week, and in weeks ahead need more of the members:
/// a fit day can be picked.
struct WeekGates {
  std::vector<treatment::Gate> gates;
  bool residual_stopped = false;
  bool foliar_stopped = false;
};

/// One entry for each treated day, `on` being the day of the answer. Of turf before that day nothing is
/// known: leave it out of the facts to ask about passed days.
std::vector<WeekGates> gates_of_weeks(const TargetRun& run, const SeasonRuns& runs,
                                      const Scenarios& scenarios, const Catalogue& catalogue,
                                      std::span<const Day> treated, Day on, const GateFacts& facts);

/// Forbids the kinds whose parts are stopped.
void apply(const WeekGates& gates, TreatmentWeek& week);

}  // namespace soilclock::advice
