// SPDX-License-Identifier: MIT
#include "weather/columns/unit_conversion.hpp"

namespace soilclock::weather {

Temperature to_temperature(double value, Unit unit) {
  switch (unit) {
    case Unit::fahrenheit:
      return Temperature::from_fahrenheit(value);
    case Unit::kelvin:
      return Temperature::from_kelvin(value);
    case Unit::tenths_celsius:
      return Temperature::from_celsius(value / 10.0);
    default:
      return Temperature::from_celsius(value);
  }
}

Rain to_rain(double value, Unit unit) {
  switch (unit) {
    case Unit::inch:
      return Rain::from_inches(value);
    case Unit::centimetre:
      return Rain::from_mm(value * 10.0);
    case Unit::tenths_millimetre:
      return Rain::from_mm(value / 10.0);
    default:
      return Rain::from_mm(value);
  }
}

double to_wind_speed(double value, Unit unit) {
  switch (unit) {
    case Unit::kilometre_per_hour:
      return value / 3.6;
    case Unit::mile_per_hour:
      return value * 0.44704;  // exact: international mile
    case Unit::knot:
      return value * 1852.0 / 3600.0;  // exact: international nautical mile
    default:
      return value;
  }
}

}  // namespace soilclock::weather
