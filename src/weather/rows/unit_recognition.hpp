// SPDX-License-Identifier: MIT
// The unit of every column: from the user, from its heading, or from its numbers; and whether heading and
// numbers agree.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/problem.hpp"
#include "weather/reading_notes.hpp"
#include "weather/rows/table_section.hpp"

namespace soilclock::weather {

/// What `ReadingOptions::units_in` says.
struct WantedUnits {
  std::optional<Unit> temperature;
  std::optional<Unit> rain;
};

/// Reads "F,in" and the like; empty gives no wish. A request problem for a word that is no unit.
Result<WantedUnits> wanted_units(const std::string& text);

/// Settles the unit of every temperature and rain column of the plan, once per column.
/// Errors: heading and numbers contradict each other, or no heading speaks and the numbers fit two units.
Result<bool> settle_units(SectionData& data, const ReadingOptions& options, ReadingNotes& notes);

}  // namespace soilclock::weather
