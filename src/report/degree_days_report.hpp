// SPDX-License-Identifier: MIT
// Degree-day sums as JSON, text and comma-separated values.
#pragma once

#include <optional>
#include <string>

#include "core/degree_days.hpp"
#include "thermal/accumulation.hpp"
#include "weather/weather_origin.hpp"

namespace soilclock::report {

struct DegreeDayReport {
  std::string site;
  std::string method;  ///< "sine", "cooling", ...
  Temperature lower;   ///< for cooling sums the temperature counted down from
  std::optional<Temperature> upper;
  std::string cutoff = "none";
  DayRange days;
  thermal::Accumulation sum;
  std::vector<weather::WeatherOrigin> origins;  ///< services the weather was fetched from
};

/// The "soilclock-degree-days" document, version 1; Celsius.
std::string degree_days_json(const DegreeDayReport& report);
std::string degree_days_text(const DegreeDayReport& report, bool us_units);
std::string degree_days_csv(const DegreeDayReport& report);

}  // namespace soilclock::report
