// SPDX-License-Identifier: MIT
// Measured records of air and rain. Their soil is left out: it is estimated, as at a course without a probe.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/place.hpp"
#include "core/problem.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::obey {

struct Station {
  std::string name;  ///< "TN Crossville 7 NW"
  Place place;
  weather::DailyWeather daily;
  bool one_year = false;  ///< a record of one calendar year only
};

/// The stations with several years, then those with one, each in the order of their names. Nothing (said on
/// standard output) where the records are not there.
std::optional<std::vector<Station>> read_stations();

}  // namespace soilclock::obey
