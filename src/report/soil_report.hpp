// SPDX-License-Identifier: MIT
// The soil estimate against readings, as JSON, text and comma-separated values.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/dates.hpp"
#include "core/depth.hpp"
#include "core/remark.hpp"
#include "core/temperature.hpp"
#include "weather/weather_origin.hpp"

namespace soilclock::report {

struct SoilDay {
  Day day{};
  std::optional<Temperature> air_mean;
  std::optional<Temperature> estimate;
  std::optional<Temperature> reading;  ///< measured at the same depth
  std::optional<Temperature> fitted;   ///< the estimate corrected by the readings, where a fit was asked for
};

/// What a fit to the readings gave.
struct SoilFit {
  int n = 0;  ///< readings judged by those before them
  double rmse_before_c = 0.0;
  double rmse_after_c = 0.0;
};

struct SoilReport {
  std::string site;
  Depth depth = Depth::from_cm(5.0);
  std::string model;
  std::vector<SoilDay> days;
  std::vector<Remark> remarks;
  std::optional<SoilFit> fit = {};
  std::vector<weather::WeatherOrigin> origins = {};  ///< services the weather was fetched from
};

/// How far the estimate was from the readings over the days that have both.
struct SoilScore {
  int n = 0;
  double rmse_c = 0.0;  ///< not-a-number when n is 0
  double bias_c = 0.0;  ///< estimate minus reading
};
SoilScore score(const SoilReport& report);

/// The "soilclock-soil" document, version 1; Celsius.
std::string soil_json(const SoilReport& report);
std::string soil_text(const SoilReport& report, bool us_units);
std::string soil_csv(const SoilReport& report);

}  // namespace soilclock::report
