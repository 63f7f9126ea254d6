// SPDX-License-Identifier: MIT
// What a value can be and what it cannot: physical limits, order of the extremes, jumps, stuck sensors,
// counts of days.
#pragma once

#include <optional>

#include "weather/daily_weather.hpp"
#include "weather/parsed_file.hpp"
#include "weather/reading_notes.hpp"

namespace soilclock::weather {

/// The hottest air on record is 56.7 C (Death Valley, 1913; World Meteorological Organization).
inline constexpr double hottest_air_c = 57.0;
/// The wettest hour on record brought 305 mm (Holt, Missouri, 1947; World Meteorological Organization).
inline constexpr double wettest_hour_mm = 305.0;

/// Air and soil temperatures in use. The coldest air on record is -89.2 C (Antarctica), but no turf is
/// managed below -60 C. Basis: common practice of quality control.
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
  /// Every pair so far had its minimum above its maximum (or most of many): the columns are exchanged.
  bool reversed_everywhere() const {
    constexpr int many = 5;
    return reversed_ > 0 && (reversed_ == pairs_ || (pairs_ >= many && reversed_ * 2 > pairs_));
  }

 private:
  int pairs_ = 0;
  int reversed_ = 0;
  bool swap_reversed_;
  ReadingNotes& notes_;
};

/// The question that stops a reading whose extremes are reversed everywhere.
Problem exchanged_columns(std::optional<int> line, const std::string& minimum, const std::string& maximum,
                          const ReadingNotes& notes);

/// Takes away days whose minimum, from another row or table, is above their maximum, with a doubt.
void clear_reversed_days(DailyWeather& daily, ReadingNotes& notes);

/// Fills the counts of a daily reading whose first and last date are set.
void count_days(ParsedFile& reading);

/// Doubts about a whole daily series: days without temperature, jumps against both neighbors, equal values
/// for days.
void check_daily_series(const ParsedFile& reading, ReadingNotes& notes);

}  // namespace soilclock::weather
