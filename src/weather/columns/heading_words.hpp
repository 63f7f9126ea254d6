// SPDX-License-Identifier: MIT
// Words that headings are made of (English, German, French, Spanish, Italian, Portuguese, common short forms)
// and what each one hints at.
#pragma once

#include <bitset>
#include <optional>
#include <string_view>

namespace soilclock::weather {

enum class Hint : unsigned char {
  temperature,
  outdoors,
  maximum,
  minimum,
  mean,
  soil,
  rain,
  humidity,
  wind,
  today,
  running,
  several_days,
  not_air,
  not_amount,
  not_value,   ///< "indoor", "snow", "count": what the column is not
  qualified,   ///< "forecast", "normal", "previous": of something else than the row's own day
  other_date,  ///< "issue", "download", "sunrise": a date or time that is not that of the row
  harmless,    ///< words that change nothing: "the", "daily", "sensor"
  date,
  clock,
  stamp,
  year,
  month,
  day,
  day_of_year,
  hour_minute,
  hour,
  hour_ending,
  epoch,
  station,
  flag,
  attributes,
  observation,
  latitude,
  longitude,
  elevation,
  local,
  universal,
  celsius,
  fahrenheit,
  kelvin,
  degree,
  millimeter,
  centimeter,
  inch,
  meter,
  foot,
  tenths,
  hundredths,
  thousandths,
  above,
  mile_per_hour,
  knot,
  percent,
  number_of  // how many hints there are
};
using Hints = std::bitset<static_cast<std::size_t>(Hint::number_of)>;
inline bool has(const Hints& hints, Hint hint) { return hints[static_cast<std::size_t>(hint)]; }

/// What one word hints at; nothing for a word that is not in the table.
std::optional<Hints> hints_of(std::string_view word);

}  // namespace soilclock::weather
