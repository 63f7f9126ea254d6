// SPDX-License-Identifier: MIT
// The dates of a site's seasons, and how well a calendar date and the soil rules called them.
#pragma once

#include <vector>

#include "advice/answer/answer.hpp"
#include "advice/comparison/comparison.hpp"
#include "advice/data/practice.hpp"

namespace soilclock::advice {

/// The past seasons of an answer and the season it is for, each on a row. The answer must have its day table.
std::vector<SeasonRow> season_rows(const TargetAnswer& answer);

/// The days of the shares and soil rules and the best weeks of rows whose last one is the present season.
std::vector<SeasonDate> season_dates(const std::vector<SeasonRow>& rows,
                                     const std::vector<SoilRuleStatus>& rules);

/// How many days early or late the calendar and each soil rule were in the past seasons of the rows.
std::vector<CallMisses> call_misses(const std::vector<SeasonRow>& rows,
                                    const std::vector<SoilRuleStatus>& rules, const Season& season,
                                    const ComparisonRules& comparison);

/// Puts the two sentences that say what the rows show into a comparison that is complete otherwise. The day
/// is the calendar's in the present season; `warmer_by` is the change of the first changed case ("1.8 F").
void word_finding(TargetComparison& comparison, Day calendar_day, const std::string& warmer_by);

}  // namespace soilclock::advice
