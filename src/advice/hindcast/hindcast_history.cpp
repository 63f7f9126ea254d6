// SPDX-License-Identifier: MIT
#include "advice/hindcast/hindcast_history.hpp"

#include <algorithm>

#include "advice/futures/normal_filling.hpp"
#include "weather/series/gaps.hpp"
#include "weather/series/joining.hpp"

namespace soilclock::advice {

namespace {

/// Measured days and those of a reanalysis; nothing that was guessed or forecast.
template <class Series>
void keep_past(Series& series) {
  for (Day day = series.days().begin(); day < series.days().end(); day += Days{1}) {
    const Quality quality = series.quality(day);
    if (quality != Quality::measured && quality != Quality::modelled) series.clear(day);
  }
}

/// The first days from `on` pass for a forecast, what comes after them is gone.
template <class Series>
void cut_with_forecast(Series& series, Day on, int known_ahead) {
  const Day end = std::min(on + Days{known_ahead}, series.days().end());
  if (series.empty() || end <= series.first()) {
    series = Series{};
    return;
  }
  series = series.slice({series.first(), end});
  for (Day day = std::max(on, series.first()); day < end; day += Days{1}) {
    if (const auto value = series.at(day)) series.set(day, *value, Quality::forecast);
  }
}

}  // namespace

SiteHistory history_of(const SiteWeather& site) {
  SiteHistory history{site.place,       site.daily, site.irrigation, site.spots,
                      site.soil_offset, {},         site.us_units,   site.texture};
  keep_past(history.daily.air_min);
  keep_past(history.daily.air_max);
  keep_past(history.daily.rain);
  for (auto& entry : history.daily.soil) keep_past(entry.second);
  const DailySeries<Temperature> air = weather::air_mean(history.daily);
  history.end = air.days().end();
  while (history.end > air.days().begin() && !air.at(history.end - Days{1})) history.end -= Days{1};
  return history;
}

SiteWeather known_on(const SiteHistory& history, Day on, int known_ahead, const FutureRules& rules) {
  weather::DailyWeather daily = history.daily;
  cut_with_forecast(daily.air_min, on, known_ahead);
  cut_with_forecast(daily.air_max, on, known_ahead);
  cut_with_forecast(daily.rain, on, known_ahead);
  for (auto& entry : daily.soil) cut_with_forecast(entry.second, on, 0);
  SiteWeather site;
  site.place = history.place;
  site.us_units = history.us_units;
  site.on = on;
  site.irrigation = history.irrigation;
  site.texture = history.texture;
  site.soil_offset = history.soil_offset;
  site.daily = weather::fill_gaps(daily, rules.gaps).weather;
  fill_from_normals(site.daily, site.place, rules.gaps.longest_past_year, rules);
  for (const soil::SpotMean& spot : history.spots) {
    if (spot.day < on) site.spots.push_back(spot);
  }
  site.outlook_start = site.daily.air_min.days().end();
  const Day first = site.daily.air_min.days().begin();
  const auto known = [&](Day day) { return site.daily.air_min.at(day) && site.daily.air_max.at(day); };
  while (site.outlook_start > first && !known(site.outlook_start - Days{1})) site.outlook_start -= Days{1};
  return site;
}

SiteWeather without_readings(SiteWeather site) {
  site.daily.soil.clear();
  site.spots.clear();
  return site;
}

SiteWeather with_readings_before(SiteWeather site, Day day) {
  for (auto& entry : site.daily.soil) {
    DailySeries<Temperature>& readings = entry.second;
    readings = readings.slice({std::min(day, readings.days().begin()), std::min(day, readings.days().end())});
  }
  std::erase_if(site.spots, [&](const soil::SpotMean& spot) { return spot.day >= day; });
  return site;
}

}  // namespace soilclock::advice
