// SPDX-License-Identifier: MIT
// Units written in headings that are not understood, or that the numbers cannot be in.
#pragma once

#include "core/problem.hpp"
#include "weather/reading_notes.hpp"
#include "weather/rows/table_section.hpp"
#include "weather/rows/unit_recognition.hpp"

namespace soilclock::weather {

/// Error: what is written where a unit stands is none known here (it is never taken as a usual one), or the
/// heading says tenths or hundredths and the numbers have decimals. What the user names is not asked about.
Checked ask_about_units(const SectionData& data, const WantedUnits& wanted, const ReadingNotes& notes);

}  // namespace soilclock::weather
