// SPDX-License-Identifier: MIT
// One heading of a weather table to the quantity, unit and depth it announces.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace soilclock::weather {

enum class Quantity {
  not_used,
  stamp,  ///< a date, with or without a time of day, or a number that stands for one
  time_of_day,
  hour_ending,  ///< a time of day that closes its hour
  year,
  month,
  day_of_month,
  day_of_year,
  observation_time,  ///< when a daily observer reads the instruments
  air,
  air_min,
  air_max,
  air_mean,
  rain,
  rain_today,
  rain_running,
  rain_several_days,
  soil,
  humidity,
  wind,
  station,
  flag,
  attributes,
  latitude,
  longitude,
  elevation
};

enum class Unit {
  none,
  celsius,
  fahrenheit,
  kelvin,
  tenths_celsius,
  millimetre,
  centimetre,
  inch,
  tenths_millimetre,
  percent,
  metre_per_second,
  kilometre_per_hour,
  mile_per_hour,
  knot
};

/// "C", "F", "mm", ...; empty for none.
std::string_view unit_name(Unit unit);

struct HeadingMeaning {
  Quantity quantity = Quantity::not_used;
  Unit unit = Unit::none;
  std::optional<double> depth_cm;  ///< soil only; the middle of a layer
  bool single_reading = false;     ///< one reading at the start of the day, not a mean
  bool names_temperature = false;  ///< speaks of a temperature, even one we do not use
};

/// Reads a heading, with the text of a units line or of a legend appended in the same way.
HeadingMeaning heading_meaning(std::string_view heading);

/// The word shown for a quantity: "date", "tmin", "soil 5 cm", ..., "not used".
std::string quantity_name(Quantity quantity, std::optional<double> depth_cm);

/// The inverse, for what people write in options; nothing for an unknown word.
std::optional<HeadingMeaning> quantity_named(std::string_view word);

bool is_temperature(Quantity quantity);
bool is_rain(Quantity quantity);
/// Part of the moment a row belongs to.
bool is_time(Quantity quantity);

}  // namespace soilclock::weather
