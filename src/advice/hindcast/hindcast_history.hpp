// SPDX-License-Identifier: MIT
// The whole record of a site, and what of it was known on a morning of the past.
#pragma once

#include <vector>

#include "advice/data/future_rules.hpp"
#include "advice/site/site_weather.hpp"

namespace soilclock::advice {

/// A site with its record as it was read: holes are open, because closing them with the whole record in view
/// would let later years into earlier ones.
struct SiteHistory {
  Place place;
  weather::DailyWeather daily;
  emergence::Irrigation irrigation;
  std::vector<soil::SpotMean> spots;
  TemperatureDelta soil_offset;
  Day end{};              ///< first day after the last one with both air extremes
  bool us_units = false;  ///< of the sentences
  soil::Texture texture = soil::Texture::loam;
};

/// The history behind a prepared site: filled values and forecasts are taken out again.
SiteHistory history_of(const SiteWeather& site);

/// What was known in the morning of a day, holes closed from what had been seen by then. The air and rain of
/// the first `known_ahead` days (0 or more) come as if forecast without error. No value of a later day is
/// looked at.
SiteWeather known_on(const SiteHistory& history, Day on, int known_ahead, const FutureRules& rules);

/// The same without any soil reading.
SiteWeather without_readings(SiteWeather site);

/// The same with the soil readings of earlier days only.
SiteWeather with_readings_before(SiteWeather site, Day day);

}  // namespace soilclock::advice
