// SPDX-License-Identifier: MIT
// The daily block of one run as it is printed.
#pragma once

#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"
#include "weather/services/open_meteo_block.hpp"

namespace soilclock::weather {

/// Extremes and rain of one run to daily values; false when there is neither a minimum nor a maximum. A day
/// whose mean was asked for and is null has no extremes that can be used: the service makes them from the
/// hours behind a hole (source: its public server code).
bool fill_printed_days(const AnswerBlock& daily, const RunName& run, const ReadingOptions& options,
                       ParsedFile& reading, ReadingNotes& notes);

}  // namespace soilclock::weather
