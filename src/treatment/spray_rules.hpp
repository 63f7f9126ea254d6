// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "core/problem.hpp"
#include "core/rain.hpp"
#include "core/temperature.hpp"

namespace soilclock::treatment {

/// models/treatment/spray_day.json; the defaults are the same numbers.
struct SprayRules {
  double wind_least_m_per_s = 3.0 * 0.44704;
  double wind_most_m_per_s = 10.0 * 0.44704;
  double inversion_before_sunset_h = 1.5;
  double inversion_after_sunrise_h = 1.0;
  double inversion_broken_m_per_s = 6.8 * 0.44704;
  TemperatureDelta delta_t_least = TemperatureDelta::from_kelvin(2.0);
  TemperatureDelta delta_t_most = TemperatureDelta::from_kelvin(8.0);
  TemperatureDelta delta_t_stop = TemperatureDelta::from_kelvin(10.0);
  Temperature hot_caution = Temperature::from_fahrenheit(82.0);
  Temperature hot_stop = Temperature::from_fahrenheit(90.0);
  Temperature post_stop_maximum = Temperature::from_fahrenheit(50.0);
  Temperature post_good_maximum = Temperature::from_fahrenheit(60.0);
  Temperature dormant_stop_maximum = Temperature::from_fahrenheit(55.0);
  Temperature dormant_good_maximum = Temperature::from_fahrenheit(60.0);
  double rain_free_h = 4.0;
  Rain watering_least = Rain::from_inches(0.25);
  int watering_within_days = 3;
  Rain heavy_rain = Rain::from_inches(1.0);
  Rain rain_on_day = Rain::from_mm(1.0);
  Rain saturating_rain = Rain::from_inches(1.6);
  Temperature frost_ahead = Temperature::from_fahrenheit(32.0);
  double run_least_h = 4.0;
};

/// Reads spray-day rules; a request problem names the place (unknown key, wrong unit, missing grounds).
Result<SprayRules> read_spray_rules(std::string_view json, const std::string& file);

}  // namespace soilclock::treatment
