// SPDX-License-Identifier: MIT
#include "weather/quantities.hpp"

#include <fmt/format.h>

#include <array>

namespace soilclock::weather {

std::string_view unit_name(Unit unit) {
  switch (unit) {
    case Unit::celsius:
      return "C";
    case Unit::fahrenheit:
      return "F";
    case Unit::kelvin:
      return "K";
    case Unit::tenths_celsius:
      return "0.1 C";
    case Unit::hundredths_celsius:
      return "0.01 C";
    case Unit::tenths_fahrenheit:
      return "0.1 F";
    case Unit::hundredths_fahrenheit:
      return "0.01 F";
    case Unit::millimeter:
      return "mm";
    case Unit::centimeter:
      return "cm";
    case Unit::inch:
      return "in";
    case Unit::tenths_millimeter:
      return "0.1 mm";
    case Unit::hundredths_millimeter:
      return "0.01 mm";
    case Unit::tenths_inch:
      return "0.1 in";
    case Unit::hundredths_inch:
      return "0.01 in";
    case Unit::thousandths_inch:
      return "0.001 in";
    case Unit::meter:
      return "m";
    case Unit::foot:
      return "ft";
    case Unit::percent:
      return "%";
    case Unit::meter_per_second:
      return "m/s";
    case Unit::kilometer_per_hour:
      return "km/h";
    case Unit::mile_per_hour:
      return "mph";
    case Unit::knot:
      return "kn";
    case Unit::none:
      break;
  }
  return "";
}

namespace {

struct QuantityWord {
  Quantity quantity;
  std::string_view word;
};

constexpr std::array quantity_words{
    QuantityWord{Quantity::not_used, "not used"},
    QuantityWord{Quantity::stamp, "date"},
    QuantityWord{Quantity::time_of_day, "time"},
    QuantityWord{Quantity::hour_ending, "hour ending"},
    QuantityWord{Quantity::year, "year"},
    QuantityWord{Quantity::month, "month"},
    QuantityWord{Quantity::day_of_month, "day"},
    QuantityWord{Quantity::day_of_year, "day of year"},
    QuantityWord{Quantity::observation_time, "observation time"},
    QuantityWord{Quantity::air, "temperature"},
    QuantityWord{Quantity::air_min, "tmin"},
    QuantityWord{Quantity::air_max, "tmax"},
    QuantityWord{Quantity::air_mean, "tmean"},
    QuantityWord{Quantity::rain, "rain"},
    QuantityWord{Quantity::rain_today, "rain today"},
    QuantityWord{Quantity::rain_running, "rain running total"},
    QuantityWord{Quantity::rain_several_days, "rain of several days"},
    QuantityWord{Quantity::humidity, "humidity"},
    QuantityWord{Quantity::wind, "wind"},
    QuantityWord{Quantity::station, "station"},
    QuantityWord{Quantity::flag, "flag"},
    QuantityWord{Quantity::attributes, "attributes"},
    QuantityWord{Quantity::latitude, "latitude"},
    QuantityWord{Quantity::longitude, "longitude"},
    QuantityWord{Quantity::elevation, "elevation"},
    QuantityWord{Quantity::soil, "soil"},
};

}  // namespace

std::string quantity_name(Quantity quantity, std::optional<double> depth_cm) {
  if (quantity == Quantity::soil && depth_cm) return fmt::format("soil {:.3g} cm", *depth_cm);
  for (const QuantityWord& entry : quantity_words) {
    if (entry.quantity == quantity) return std::string{entry.word};
  }
  return "not used";
}

std::optional<Quantity> quantity_of_word(std::string_view word) {
  for (const QuantityWord& entry : quantity_words) {
    if (entry.word == word) return entry.quantity;
  }
  return std::nullopt;
}

bool is_temperature(Quantity quantity) {
  return quantity == Quantity::air || quantity == Quantity::air_min || quantity == Quantity::air_max ||
         quantity == Quantity::air_mean || quantity == Quantity::soil;
}

bool is_rain(Quantity quantity) {
  return quantity == Quantity::rain || quantity == Quantity::rain_today ||
         quantity == Quantity::rain_running || quantity == Quantity::rain_several_days;
}

bool is_time(Quantity quantity) {
  switch (quantity) {
    case Quantity::stamp:
    case Quantity::time_of_day:
    case Quantity::hour_ending:
    case Quantity::year:
    case Quantity::month:
    case Quantity::day_of_month:
    case Quantity::day_of_year:
      return true;
    default:
      return false;
  }
}

}  // namespace soilclock::weather
