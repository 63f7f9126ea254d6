// SPDX-License-Identifier: MIT
// What a value can be and what it cannot: physical limits, order of the extremes, jumps, stuck sensors,
// counts of days.
#pragma once

#include <optional>

#include "weather/daily_weather.hpp"
#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"

namespace soilclock::weather {

/// Air and soil temperatures in use. Records are -89.2 C (Antarctica) and 56.7 C (Death Valley); no turf is
/// managed below -60 C. Basis: common practice of quality control, widened to whole tens.
bool plausible(Temperature temperature);
/// 0 to 500 mm a day; record days are above 1000 mm, but not at managed turf. Basis: common practice.
bool plausible(Rain rain);

struct DailyExtremes {
  std::optional<Temperature> minimum;
  std::optional<Temperature> maximum;
};

/// Checks single days of a daily file and says what it takes away.
class ExtremesCheck {
 public:
  ExtremesCheck(bool swap_reversed, ReadingNotes& notes) : swap_reversed_{swap_reversed}, notes_{notes} {}
  /// Values outside the limits are taken away; a minimum above its maximum takes both (or exchanges them).
  DailyExtremes checked(DailyExtremes pair, Day day, std::optional<int> line);
  std::optional<Rain> checked_rain(Rain rain, std::optional<int> line);
  std::optional<Temperature> checked_soil(Temperature temperature, std::optional<int> line);

 private:
  bool swap_reversed_;
  ReadingNotes& notes_;
};

/// Fills the counts of a daily reading whose first and last date are set.
void count_days(ParsedFile& reading);

/// Doubts about a whole daily series: days without temperature, jumps against both neighbors, equal values
/// for days.
void check_daily_series(const ParsedFile& reading, ReadingNotes& notes);

}  // namespace soilclock::weather
