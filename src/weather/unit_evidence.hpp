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

/// How much better the numbers fit Celsius than Fahrenheit: the logarithm of the ratio of the likelihoods of
/// a month of them, positive for Celsius. Judged by the mean for the season (and for the latitude, where the
/// place is known), by the daily range and by how much the days differ: Fahrenheit degrees are 1.8 times as
/// many. Basis: derived; in 30-day windows of 119 measured records (75 US stations of 2020, 39 of 2009 to
/// 2017, 5 Irish ones) the right unit wins every time where the latitude is known, and 99 times in 100 where
/// it is not.
struct UnitEvidence {
  double for_celsius = 0.0;
  int days = 0;  ///< with both extremes
};

/// `celsius`: the series as read; `label`: the unit the numbers were taken to be in. Nothing for a label
/// other than Celsius or Fahrenheit and for a series without days of both extremes.
std::optional<UnitEvidence> unit_evidence(const DailyWeather& celsius, Unit label,
                                          const std::optional<Place>& place);

/// Where a unit comes from: a heading or an answer that names it, or the numbers themselves.
enum class UnitSource { named, guessed };

/// Error: the numbers fit the other unit clearly better, a guessed unit is not clear, or minimum and maximum
/// are too far apart to be in the units they are labeled with. Doubts a named unit that is not clearly
/// better.
Checked check_unit(const DailyWeather& celsius, Unit label, UnitSource source,
                   const std::optional<Place>& place, ReadingNotes& notes);

/// The same for soil temperatures near the surface (Celsius, as read), by the season alone.
Checked check_soil_unit(const std::vector<ProbeObservation>& soil, Unit label,
                        const std::optional<Place>& place, ReadingNotes& notes);

}  // namespace soilclock::weather
