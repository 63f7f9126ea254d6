// SPDX-License-Identifier: MIT
// Flags beside daily values: failed quality checks, traces, and when a daily observer reads the instruments.
#pragma once

#include <set>
#include <utility>
#include <vector>

#include "weather/block_data.hpp"
#include "weather/reading_notes.hpp"

namespace soilclock::weather {

/// (row index, column) of values that must not be used.
using FlaggedCells = std::set<std::pair<std::size_t, std::size_t>>;

/// Values whose attribute column ("M,Q,S" or "M,Q,S,HHMM" behind the value) carries a quality flag.
/// Source: readme of the daily summaries of the US climate data centre: a quality flag that is not blank is a
/// failed check.
FlaggedCells failed_quality_flags(const BlockData& data, const std::vector<std::size_t>& rows,
                                  ReadingNotes& notes);

/// True when the readings are taken in the morning (observation time column, or the fourth attribute), so
/// that maximum and rain belong to the day before; says so, and whether they are moved. Basis: common
/// practice of manual stations.
bool note_observation_time(const BlockData& data, const std::vector<std::size_t>& rows, bool shifted,
                           ReadingNotes& notes);

}  // namespace soilclock::weather
