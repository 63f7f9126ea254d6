// SPDX-License-Identifier: MIT
// Quantities a column can hold and the units it can hold them in, with their names.
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
  hundredths_celsius,
  tenths_fahrenheit,
  hundredths_fahrenheit,
  millimeter,
  centimeter,
  inch,
  tenths_millimeter,
  hundredths_millimeter,
  tenths_inch,
  hundredths_inch,
  thousandths_inch,
  meter,
  foot,
  percent,
  meter_per_second,
  kilometer_per_hour,
  mile_per_hour,
  knot
};

/// "C", "F", "mm", ...; empty for none.
std::string_view unit_name(Unit unit);

/// The word shown for a quantity: "date", "tmin", "soil 5 cm", ..., "not used".
std::string quantity_name(Quantity quantity, std::optional<double> depth_cm);

/// The quantity whose word this is; nothing for any other text.
std::optional<Quantity> quantity_of_word(std::string_view word);

bool is_temperature(Quantity quantity);
bool is_rain(Quantity quantity);
/// Part of the moment a row belongs to.
bool is_time(Quantity quantity);

}  // namespace soilclock::weather
