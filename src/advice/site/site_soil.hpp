// SPDX-License-Identifier: MIT
// The soil of a site as its record has it.
#pragma once

#include "advice/site/site_weather.hpp"
#include "soil/soil_temperature.hpp"

namespace soilclock::advice {

/// What the record says about the soil up to the outlook start.
struct SiteSoil {
  soil::SoilTemperature at_5cm;  ///< measured at 5 cm where it was, else estimated; all readings of any depth
  DailySeries<Temperature> best_5cm;        ///< at 5 cm, the last 400 days moved by the readings around them
  DailySeries<Temperature> known_then_5cm;  ///< the same, each day moved by the readings up to it only
  DailySeries<Temperature> shallow;         ///< estimate at 2.5 cm
};
SiteSoil site_soil(const SiteWeather& site, const soil::SoilModels& models);

}  // namespace soilclock::advice
