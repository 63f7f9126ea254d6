// SPDX-License-Identifier: MIT
// Who made a fetched series, when it was fetched, and the lines its terms ask for.
#pragma once

#include <optional>
#include <string>

#include "core/dates.hpp"
#include "core/time_zone.hpp"

namespace soilclock::weather {

struct WeatherOrigin {
  std::string service;      ///< id: "open-meteo"
  std::string title;        ///< as people call it, with the part: "Open-Meteo history"
  std::string model;        ///< where the answer names one
  std::string attribution;  ///< stands in every output made with the series; "{year}" is that of fetching
  std::string license;
  std::string from;                     ///< host the latest answer came from, or the name of a saved file
  Instant fetched{};                    ///< when the latest answer was given
  Day fetched_on{};                     ///< the same on the site's calendar
  DayRange days;                        ///< days the series covers
  std::optional<Day> provisional_from;  ///< first day gone by that the service may still change
};

}  // namespace soilclock::weather
