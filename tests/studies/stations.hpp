// SPDX-License-Identifier: MIT
// Measured records of air, rain and soil.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/depth.hpp"
#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/series.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::studies {

struct Station {
  std::string name;  ///< "TN Crossville 7 NW"
  Place place;
  weather::DailyWeather daily;                          ///< without soil, as at a course without a probe
  std::map<Depth, DailySeries<Temperature>> soil = {};  ///< what was measured, by depth
  bool one_year = false;                                ///< a record of one calendar year only
};

/// Whether the station lies where the soil coefficients were fitted.
bool is_eastern(const Station& station);

/// The stations with several years, then all with one, each in the order of their names. Nothing (said on
/// standard output) where the records are not there.
std::optional<std::vector<Station>> read_stations();

/// Two cities of a public record of four years (2012 to 2015) without soil, from `vega_noaa`; none where it
/// is not there.
std::vector<Station> read_cities();

}  // namespace soilclock::studies
