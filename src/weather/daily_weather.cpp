// SPDX-License-Identifier: MIT
#include "weather/daily_weather.hpp"

#include <algorithm>

namespace soilclock::weather {

namespace {

/// How far a value is from a measurement of its own day; the larger is the weaker.
int weakness(Quality quality) {
  switch (quality) {
    case Quality::measured:
      return 0;
    case Quality::filled:
      return 1;
    case Quality::modelled:
      return 2;
    case Quality::forecast:
      return 3;
    case Quality::past_year:
      return 4;
    case Quality::missing:
      break;
  }
  return 5;
}

}  // namespace

DailySeries<Temperature> air_mean(const DailyWeather& weather) {
  const DayRange low = weather.air_min.days();
  const DayRange high = weather.air_max.days();
  DailySeries<Temperature> mean{
      DayRange{std::max(low.begin(), high.begin()), std::min(low.end(), high.end())}};
  for (Day day = mean.days().begin(); day < mean.days().end(); day += Days{1}) {
    const auto minimum = weather.air_min.at(day);
    const auto maximum = weather.air_max.at(day);
    if (!minimum || !maximum) continue;
    const Quality a = weather.air_min.quality(day);
    const Quality b = weather.air_max.quality(day);
    mean.set(day, midpoint(*minimum, *maximum), weakness(a) >= weakness(b) ? a : b);
  }
  return mean;
}

DayRange covered(const DailyWeather& weather) {
  std::optional<DayRange> all;
  const auto add = [&](const auto& series) {
    for (Day day = series.days().begin(); day < series.days().end(); day += Days{1}) {
      if (!series.at(day)) continue;
      if (!all)
        all = DayRange{day, day + Days{1}};
      else
        all = DayRange{std::min(all->begin(), day), std::max(all->end(), day + Days{1})};
    }
  };
  add(weather.air_min);
  add(weather.air_max);
  add(weather.rain);
  return all.value_or(DayRange{});
}

}  // namespace soilclock::weather
