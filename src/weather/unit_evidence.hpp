// SPDX-License-Identifier: MIT
// Whether daily temperatures can be in the unit they are labeled with, or fit the other one better.
#pragma once

#include <optional>
#include <vector>

#include "core/place.hpp"
#include "core/problem.hpp"
#include "weather/parsed_file.hpp"
#include "weather/quantities.hpp"
#include "weather/reading_notes.hpp"

namespace soilclock::weather {

/// What about a month of daily temperatures tells their unit, in the numbers of the file.
struct UnitWindow {
  double mean = 0.0;    ///< of the daily means
  double range = 0.0;   ///< mean of maximum less minimum
  double spread = 0.0;  ///< of the daily means about their trend; 0 where too few days tell
  unsigned month = 1;
};

/// Where a unit comes from: a heading or an answer that names it, or the numbers themselves.
enum class UnitSource { named, guessed };

enum class UnitFit { good, doubtful, bad };

/// Whether daily temperatures can be in their unit: all that is known of it before the place is. `fit` is
/// what was found at the place the file was read for.
struct UnitQuestion {
  std::vector<UnitWindow> windows;
  int days = 0;  ///< with both extremes
  Unit label = Unit::celsius;
  UnitSource source = UnitSource::named;
  UnitFit fit = UnitFit::good;
};

/// How well the numbers of a question fit their unit rather than the other one, by the mean for the season
/// (and for the latitude, where the place is known), by the daily range and by how much the days differ:
/// Fahrenheit degrees are 1.8 times as many. Basis: derived; in 30-day windows of 119 measured records (75 US
/// stations of 2020, 39 of 2009 to 2017, 5 Irish ones) the right unit wins every time where the latitude is
/// known, and 99 times in 100 where it is not.
UnitFit unit_fit(const UnitQuestion& question, const std::optional<Place>& place);

/// Whether a text that was read for a site at one place, with these questions, is read the same for a site at
/// another: the place says nothing else about a file than how it fits its units.
bool read_alike(const std::vector<UnitQuestion>& questions, const std::optional<Place>& one,
                const std::optional<Place>& other);

/// Error: the numbers fit the other unit clearly better, a guessed unit is not clear, or minimum and maximum
/// are too far apart to be in the units they are labeled with. Doubts a named unit that is not clearly
/// better. The question asked is noted, too.
Checked check_unit(const DailyWeather& celsius, Unit label, UnitSource source,
                   const std::optional<Place>& place, ReadingNotes& notes);

/// The same for soil temperatures near the surface (Celsius, as read), by the season alone.
Checked check_soil_unit(const std::vector<ProbeObservation>& soil, Unit label,
                        const std::optional<Place>& place, ReadingNotes& notes);

}  // namespace soilclock::weather
