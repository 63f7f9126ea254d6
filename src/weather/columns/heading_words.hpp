// SPDX-License-Identifier: MIT
// Words that headings are made of (English, German, French, common short forms) and what each one hints at.
#pragma once

#include <bitset>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

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
  not_value,  // "indoor", "snow", "count": what the column is not
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
  celsius,
  fahrenheit,
  kelvin,
  degree,
  millimetre,
  centimetre,
  inch,
  mile_per_hour,
  knot,
  percent,
  number_of  // how many hints there are
};
using Hints = std::bitset<static_cast<std::size_t>(Hint::number_of)>;
inline bool has(const Hints& hints, Hint hint) { return hints[static_cast<std::size_t>(hint)]; }

/// Lower-case words and numbers of a heading: split at signs, between letters and digits and before capitals;
/// accents and degree signs are dropped, "%" is a word.
std::vector<std::string> heading_tokens(std::string_view heading);

/// What one word hints at; nothing for a word that is not in the table.
std::optional<Hints> hints_of(std::string_view word);

}  // namespace soilclock::weather
