// SPDX-License-Identifier: MIT
// The decision for one target at one site: its weeks, gates, plan and log brought together.
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "advice/answer/answer.hpp"
#include "advice/answer/site_state.hpp"
#include "advice/decision/season_control.hpp"
#include "advice/ensemble/target_run.hpp"
#include "advice/site/site_log.hpp"

namespace soilclock::advice {

/// What a decision draws on beside the answer so far. Everything must outlive the call.
struct DecisionInputs {
  const TargetRun* run = nullptr;
  const SeasonRuns* runs = nullptr;
  const Scenarios* scenarios = nullptr;
  const Catalogue* catalogue = nullptr;
  const SiteWeather* site = nullptr;
  const SiteLog* log = nullptr;
  const TurfFacts* turf_facts = nullptr;
  const std::optional<treatment::TurfAssessment>* turf = nullptr;
  const treatment::TankPlan* plan = nullptr;
  const treatment::ResistantShares* resistant = nullptr;
  std::uint64_t seed = 1;
  std::span<const treatment::TankPlan> compared_plans;
  bool plan_tables = false;  ///< compared plans come with their weeks
};

/// The applications noted for the season before the day of the answer, each with its parts against the target
/// and the delay until water made it active.
std::vector<ActingApplication> acting_applications(const DecisionInputs& inputs);

/// The last week in which a treatment of the season is still timed: fall species end at the practice file's
/// day or when warm-season turf breaks dormancy, summer annuals so many days after 90 percent are up.
Day last_useful_week(const TargetAnswer& answer, const DecisionInputs& inputs);

/// The decision over all weeks of a season that is over: what would have been best for the plan, with nothing
/// put down before. The day of the answer must lie behind the season; `last_useful` is its last_useful_week.
Decision decide_in_hindsight(const DecisionInputs& inputs, Day last_useful);

/// The decision for the plan over the weeks from the day of the answer on, and nothing else.
Decision decide_ahead(const DecisionInputs& inputs, Day last_useful);

/// Puts decision, weeks, plans, what was applied and the next look into an answer whose emergence is there;
/// the sentences come last, see words.hpp.
void decide_target(TargetAnswer& answer, const DecisionInputs& inputs);

}  // namespace soilclock::advice
