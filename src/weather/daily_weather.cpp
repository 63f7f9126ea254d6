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
  const DayRange both{std::max(low.begin(), high.begin()), std::min(low.end(), high.end())};
  std::vector<Temperature> values(static_cast<std::size_t>(both.size()));
  std::vector<Quality> qualities(values.size(), Quality::missing);
  for (std::size_t i = 0; i < values.size(); ++i) {
    const std::size_t in_low = i + static_cast<std::size_t>((both.begin() - low.begin()).count());
    const std::size_t in_high = i + static_cast<std::size_t>((both.begin() - high.begin()).count());
    const Quality a = weather.air_min.qualities()[in_low];
    const Quality b = weather.air_max.qualities()[in_high];
    if (a == Quality::missing || b == Quality::missing) continue;
    values[i] = midpoint(weather.air_min.values()[in_low], weather.air_max.values()[in_high]);
    qualities[i] = weakness(a) >= weakness(b) ? a : b;
  }
  return {both.begin(), std::move(values), std::move(qualities)};
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
