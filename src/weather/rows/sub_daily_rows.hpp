// SPDX-License-Identifier: MIT
// A table with several rows a day to daily series and to the readings of single hours.
#pragma once

#include "core/problem.hpp"
#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"
#include "weather/rows/table_section.hpp"

namespace soilclock::weather {

/// Fills series, hours, dates, counts and step of the reading. A day whose readings leave more than six hours
/// unseen (common practice: four readings a day are the least) gives no daily values. Error: one moment twice
/// with different values where no clock change explains it.
Result<bool> read_sub_daily_rows(const SectionData& data, const ReadingOptions& options, ParsedFile& reading,
                                 ReadingNotes& notes);

}  // namespace soilclock::weather
