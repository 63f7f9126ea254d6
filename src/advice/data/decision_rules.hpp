// SPDX-License-Identifier: MIT
// The numbers of the decision rule: the block "decision" of config/practice.json.
#pragma once

#include <string>

#include "core/json_reader.hpp"
#include "emergence/emergence_model.hpp"

namespace soilclock::advice {

/// Points are percent points of the season's seedlings.
struct DecisionRules {
  double part_worth = 0.0;         ///< what a part, a wait or a treatment at all must bring
  double range_bridge = 0.0;       ///< a dip this shallow does not end the best range
  double range_within = 0.0;       ///< the ends of the best range are this close to the best
  double good_through_best = 0.0;  ///< good until this far below the best of all kinds
  double good_through_kind = 0.0;  ///< ... or this far below the best of the named kind, whichever is lower
  double hurry = 0.0;              ///< waiting that costs this much is a hurry
  double late = 0.0;               ///< a passed week must have been this much better to be named
  double close_call_least = 0.0;   ///< a residual alone this far below the best: both are named
  double close_call_most = 0.0;
  double adding_part_worth = 0.0;     ///< what a part the plan lacks must gain to be mentioned
  int summer_days_after_90 = 0;       ///< last useful week of summer annuals after 90 percent are up
  emergence::MonthDay fall_last_day;  ///< last useful day of fall species, northern calendar
  double gated_share = 0.0;           ///< share of the members from which a week counts as gated
  double gated_share_ahead = 0.0;     ///< the same for cold and frost in weeks after this one
  int summer_look_earlier_days = 0;   ///< next look at summer annuals, before that at fall species
  double models_weight = 0.0;         ///< component models of less weight have no say in a disagreement
  double models_apart = 0.0;          ///< points of emergence from which they disagree
  int models_days_apart = 0;          ///< days from which two dates are named instead of the one between
  double hump_share = 0.0;            ///< share of the members on each side of a split
  double hump_gap = 0.0;              ///< points of emergence between the two sides
  int look_from_days = 0;             ///< after a foliar treatment survivors show from here ...
  int look_to_days = 0;               ///< ... to here
  double short_residual_weeks = 0.0;  ///< of the plans shown where none is given
  double long_residual_weeks = 0.0;
};

/// Reads the block strictly: unknown or missing key, wrong unit, missing basis or note are problems at their
/// place.
DecisionRules read_decision_rules(const JsonObject& item);

/// The object {month, day, basis, source, note} under a key: a day of the northern calendar.
emergence::MonthDay read_month_day(const JsonObject& parent, std::string_view key);

}  // namespace soilclock::advice
