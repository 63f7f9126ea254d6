// SPDX-License-Identifier: MIT
#include "advice/site/weather_change.hpp"

#include <algorithm>

namespace soilclock::advice {

namespace {

template <class Value>
void begin_at(DailySeries<Value>& series, Day from) {
  if (series.days().begin() < from) series = series.slice({from, series.days().end()});
}

}  // namespace

void clear_days(weather::DailyWeather& daily, Day before, int days) {
  for (Day day = before - Days{days}; day < before; day += Days{1}) {
    daily.air_min.clear(day);
    daily.air_max.clear(day);
    daily.rain.clear(day);
  }
}

void change_record(weather::DailyWeather& daily, Day on, const WeatherChange& change) {
  // The last day is left: without it no answer could be given that morning.
  clear_days(daily, on - Days{1}, change.missing_days);
  if (!change.record_from) return;
  begin_at(daily.air_min, *change.record_from);
  begin_at(daily.air_max, *change.record_from);
  begin_at(daily.rain, *change.record_from);
  for (auto& [depth, soil] : daily.soil) begin_at(soil, *change.record_from);
}

void change_days_ahead(weather::DailyWeather& daily, Day on, const WeatherChange& change) {
  for (Day day = on; day < daily.air_min.days().end(); day += Days{1}) {
    const auto low = daily.air_min.at(day);
    if (low) daily.air_min.set(day, change.low_on(day, *low), daily.air_min.quality(day));
    if (low && change.dry.contains(day)) daily.rain.set(day, Rain::from_mm(0.0), daily.air_min.quality(day));
  }
}

}  // namespace soilclock::advice
