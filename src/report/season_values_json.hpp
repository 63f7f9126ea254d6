// SPDX-License-Identifier: MIT
// What an answer shows beside the decision: component models, past seasons, notes of this season, as JSON
// values.
#pragma once

#include "advice/answer/answer.hpp"
#include "report/json_values.hpp"

namespace soilclock::report {

/// A list of objects: id, title, weight, percent (null without members), sources, why (null with a weight).
Json models_json(const advice::TargetAnswer& target);

/// season_start, half_up, best_week, best_kind, best_control, up (share and date), soil_rules (id and date),
/// weekly (date, percent, young and older on Mondays).
Json season_summary_json(const advice::SeasonSummary& season);

/// A list of them.
Json past_seasons_json(const advice::TargetAnswer& target);

/// seasons, half_up_day, half_up, best_week, days_against_usual; null where no usual season is named.
Json usual_json(const advice::TargetAnswer& target);

/// A list of objects: date, kind, text.
Json notes_json(const advice::TargetAnswer& target);

/// A rule of thumb by soil temperature with the day it has held since.
Json soil_rule_json(const advice::SoilRuleStatus& rule);

}  // namespace soilclock::report
