// SPDX-License-Identifier: MIT
// One heading of a weather table to the quantity, unit and depth it announces.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weather/quantities.hpp"

namespace soilclock::weather {

struct HeadingMeaning {
  Quantity quantity = Quantity::not_used;
  Unit unit = Unit::none;
  std::optional<double> depth_cm;  ///< soil only; the middle of a layer
  bool single_reading = false;     ///< one reading at the start of the day, not a mean
  bool names_temperature = false;  ///< speaks of a temperature, even one we do not use
  bool names_rain = false;         ///< speaks of rain, even of what is no amount of it
  /// What the column would be without the word that makes it something else ("forecast", "normal").
  Quantity unqualified = Quantity::not_used;
  std::string qualifier;              ///< that word
  std::vector<std::string> unknown;   ///< words and numbers of the heading that mean nothing here
  bool sensor_number = false;         ///< one of several like it: "Temp 2"
  std::string unknown_unit;           ///< what stands where a unit stands and is none known here
  bool of_day = false;                ///< "daily"
  std::optional<int> window_minutes;  ///< "24 h", "hourly": how long a time a value is of
};

/// Reads a heading, with the text of a units line in brackets behind it. `legend` is what the file says about
/// it elsewhere; its words count, but they need not all be known.
HeadingMeaning heading_meaning(std::string_view heading, std::string_view legend = {});

/// What people write for a quantity in options ("tmin", "soil 5 cm"); nothing for an unknown word.
std::optional<HeadingMeaning> quantity_named(std::string_view word);

}  // namespace soilclock::weather
