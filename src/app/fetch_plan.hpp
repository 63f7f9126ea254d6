// SPDX-License-Identifier: MIT
// Which days of a series must be asked for. Pure.
#pragma once

#include <vector>

#include "core/dates.hpp"
#include "core/time_zone.hpp"
#include "records/weather_store.hpp"

namespace soilclock::app {

/// A day nobody knew is asked for again while it is no older than this when it was last asked for: holes of
/// reanalyses and of manual stations have been filled after weeks. Judgment.
inline constexpr Days hole_may_close{120};

struct PlanRules {
  int provisional_days = 10;  ///< a known day asked for sooner after its end may have changed since
  int years_a_piece = 1;      ///< pieces end with the year, and hold so many calendar years at most
};

/// The days of `wanted` that were never asked for, were asked for in vain or may have changed since, in
/// pieces that are stored one by one, so that a fetch that is interrupted goes on where it stopped. Runs of
/// up to a week that need nothing are asked for along with their neighbors: a request costs more than a few
/// days.
std::vector<DayRange> days_to_ask(const std::vector<records::StoredDay>& stored, DayRange wanted,
                                  const TimeZone& zone, const PlanRules& rules);

}  // namespace soilclock::app
