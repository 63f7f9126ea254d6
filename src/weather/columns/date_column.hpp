// SPDX-License-Identifier: MIT
// Which column says the days of the rows.
#pragma once

#include "core/problem.hpp"
#include "weather/columns/column_plan.hpp"

namespace soilclock::weather {

/// Leaves one date column in the plan: the plain or observation date, else the one heading whose cells are
/// dates; "time", "day" and the like may hold whole dates, and so may a column with an unknown heading.
/// Errors: several that differ and are equally plain; only dates of something else ("issue date").
Checked settle_date_column(ColumnPlan& plan, const Table& table, const TableSection& section,
                           ReadingNotes& notes);

}  // namespace soilclock::weather
