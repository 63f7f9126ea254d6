// SPDX-License-Identifier: MIT
#include "weather/columns/unit_conversion.hpp"

#include "core/units.hpp"

namespace soilclock::weather {

Temperature to_temperature(double value, Unit unit) {
  switch (unit) {
    case Unit::fahrenheit:
      return Temperature::from_fahrenheit(value);
    case Unit::kelvin:
      return Temperature::from_kelvin(value);
    case Unit::tenths_celsius:
      return Temperature::from_celsius(value / 10.0);
    case Unit::hundredths_celsius:
      return Temperature::from_celsius(value / 100.0);
    case Unit::tenths_fahrenheit:
      return Temperature::from_fahrenheit(value / 10.0);
    case Unit::hundredths_fahrenheit:
      return Temperature::from_fahrenheit(value / 100.0);
    default:
      return Temperature::from_celsius(value);
  }
}

Rain to_rain(double value, Unit unit) {
  switch (unit) {
    case Unit::inch:
      return Rain::from_inches(value);
    case Unit::centimeter:
      return Rain::from_mm(value * 10.0);
    case Unit::tenths_millimeter:
      return Rain::from_mm(value / 10.0);
    case Unit::hundredths_millimeter:
      return Rain::from_mm(value / 100.0);
    case Unit::tenths_inch:
      return Rain::from_inches(value / 10.0);
    case Unit::hundredths_inch:
      return Rain::from_inches(value / 100.0);
    case Unit::thousandths_inch:
      return Rain::from_inches(value / 1000.0);
    case Unit::meter:
      return Rain::from_mm(value * 1000.0);
    case Unit::foot:
      return Rain::from_mm(value * units::m_in_foot * 1000.0);
    default:
      return Rain::from_mm(value);
  }
}

double to_wind_speed(double value, Unit unit) {
  switch (unit) {
    case Unit::kilometer_per_hour:
      return value / units::km_per_h_in_m_per_s;
    case Unit::mile_per_hour:
      return value * units::m_per_s_in_mph;
    case Unit::knot:
      return value * units::m_per_s_in_knot;
    default:
      return value;
  }
}

}  // namespace soilclock::weather
