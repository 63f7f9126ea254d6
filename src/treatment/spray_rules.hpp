// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "core/problem.hpp"
#include "core/rain.hpp"
#include "core/temperature.hpp"

namespace soilclock::treatment {

/// models/treatment/spray_day.json.
struct SprayRules {
  double wind_least_m_per_s = 0.0;
  double wind_most_m_per_s = 0.0;
  double inversion_before_sunset_h = 0.0;
  double inversion_after_sunrise_h = 0.0;
  double inversion_broken_m_per_s = 0.0;
  TemperatureDelta delta_t_least;
  TemperatureDelta delta_t_most;
  TemperatureDelta delta_t_stop;
  Temperature hot_caution;
  Temperature hot_stop;
  Temperature post_stop_maximum;
  Temperature post_good_maximum;
  Temperature dormant_stop_maximum;
  Temperature dormant_good_maximum;
  double rain_free_h = 0.0;
  Rain watering_least;
  int watering_within_days = 0;
  Rain heavy_rain;
  Rain rain_on_day;
  Rain trace;                     ///< of an hour; no more counts as dry
  double reading_lasts_h = 0.0;   ///< longest time an hourly reading stands for
  int damp_air_allowed_from = 0;  ///< days of the northern year between which damp air is a caution only
  int damp_air_allowed_to = 0;
  Rain saturating_rain;
  Temperature frost_ahead;
  double run_least_h = 0.0;
};

/// Reads spray-day rules; a request problem names the place (unknown key, wrong unit, missing grounds).
Result<SprayRules> read_spray_rules(std::string_view json, const std::string& file);

}  // namespace soilclock::treatment
