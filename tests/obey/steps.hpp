// SPDX-License-Identifier: MIT
// How far an answer moves from one day to the next when the day was an ordinary one.
#pragma once

#include "obey/asking.hpp"
#include "obey/settings.hpp"

namespace soilclock::obey {

/// One-day steps of one target over all plans.
struct StepCounts {
  int steps = 0;          ///< ordinary days between two answers with a best range
  int over_one_week = 0;  ///< an end of the best range or the good-through week moved more than a week
  int over_two_weeks = 0;
  int kind_changed = 0;             ///< the named kind changed
  int over_one_week_same_kind = 0;  ///< of over_one_week, those that name the same kind
  int over_two_weeks_same_kind = 0;
  int appeared_or_gone = 0;  ///< ordinary days on which the best range came or went; not among the steps
  StepCounts& operator+=(const StepCounts& other);
};

/// Daily answers over one season of one station.
StepCounts count_steps(const Station& station, const TargetSettings& target, const StepsSettings& settings,
                       const advice::Catalogue& catalogue);

void print_steps(const std::string& target, const StepCounts& counts, const Aims& aims);

}  // namespace soilclock::obey
