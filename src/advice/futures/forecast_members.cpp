// SPDX-License-Identifier: MIT
#include "advice/futures/forecast_members.hpp"

#include <algorithm>

namespace soilclock::advice {

namespace {

/// Mean extremes of all members on a day; nothing when one of them lacks the day.
struct DayMeans {
  double minimum_c = 0.0;
  double maximum_c = 0.0;
};

std::optional<DayMeans> means_of(const std::vector<weather::DailyWeather>& members, Day day) {
  DayMeans sum;
  for (const weather::DailyWeather& member : members) {
    const auto low = member.air_min.at(day);
    const auto high = member.air_max.at(day);
    if (!low || !high) return std::nullopt;
    sum.minimum_c += low->celsius();
    sum.maximum_c += high->celsius();
  }
  const auto n = static_cast<double>(members.size());
  return DayMeans{sum.minimum_c / n, sum.maximum_c / n};
}

/// Sets one day of a trace. A maximum never falls below its minimum: far from the mean the two may cross.
void set_day(weather::DailyWeather& trace, Day day, Temperature low, Temperature high) {
  trace.air_min.set(day, std::min(low, high), Quality::forecast);
  trace.air_max.set(day, std::max(low, high), Quality::forecast);
}

}  // namespace

std::vector<weather::DailyWeather> spread_around(const weather::DailyWeather& forecast,
                                                 const std::vector<weather::DailyWeather>& members,
                                                 DayRange days, const FutureRules& rules) {
  if (members.size() < static_cast<std::size_t>(rules.forecast_members_least)) return {};
  std::vector<weather::DailyWeather> traces(members.size());
  bool any = false;
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    const auto low = forecast.air_min.at(day);
    const auto high = forecast.air_max.at(day);
    if (!low || !high) return {};
    const auto means = means_of(members, day);
    any = any || means;
    for (std::size_t m = 0; m < members.size(); ++m) {
      TemperatureDelta low_off;
      TemperatureDelta high_off;
      if (means) {
        low_off = *members[m].air_min.at(day) - Temperature::from_celsius(means->minimum_c);
        high_off = *members[m].air_max.at(day) - Temperature::from_celsius(means->maximum_c);
      }
      set_day(traces[m], day, *low + low_off, *high + high_off);
      const auto rain = members[m].rain.at(day);
      if (const auto amount = rain ? rain : forecast.rain.at(day))
        traces[m].rain.set(day, *amount, Quality::forecast);
    }
  }
  return any ? traces : std::vector<weather::DailyWeather>{};
}

}  // namespace soilclock::advice
