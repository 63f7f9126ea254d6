// SPDX-License-Identifier: MIT
#include "advice/futures/normal_filling.hpp"

#include <algorithm>

#include "advice/futures/air_normals.hpp"

namespace soilclock::advice {

namespace {

/// Mean anomaly of the known days close to the hole; 0 when there are none.
double anomaly_around(const DailySeries<Temperature>& mean, const AirNormals& normals, DayRange hole,
                      Days near) {
  double sum = 0.0;
  int days = 0;
  for (Day day = hole.begin() - near; day < hole.end() + near; day += Days{1}) {
    const auto value = mean.at(day);
    if (!value) continue;
    sum += value->celsius() - normals.mean_c.at(day_of_year(day));
    ++days;
  }
  return days > 0 ? sum / days : 0.0;
}

/// Gives the number of days that are whole afterward.
int fill_hole(weather::DailyWeather& weather, const AirNormals& normals, double anomaly, DayRange hole,
              const FutureRules& rules) {
  int filled = 0;
  for (Day day = hole.begin(); day < hole.end(); day += Days{1}) {
    const double mean = normals.mean_c.at(day_of_year(day)) + anomaly;
    const double half = std::max(rules.half_range_least_kelvin, normals.half_range_c.at(day_of_year(day)));
    if (!weather.air_min.at(day))
      weather.air_min.set(day, Temperature::from_celsius(mean - half), Quality::past_year);
    if (!weather.air_max.at(day))
      weather.air_max.set(day, Temperature::from_celsius(mean + half), Quality::past_year);
    // A measured extreme on the other side of the usual one: the pair would be reversed, so the day stays
    // open.
    if (*weather.air_min.at(day) > *weather.air_max.at(day)) {
      if (weather.air_min.quality(day) == Quality::past_year) weather.air_min.clear(day);
      if (weather.air_max.quality(day) == Quality::past_year) weather.air_max.clear(day);
    } else {
      ++filled;
    }
  }
  return filled;
}

}  // namespace

int fill_from_normals(weather::DailyWeather& weather, const Place& place, int longest_days,
                      const FutureRules& rules) {
  const DailySeries<Temperature> mean = weather::air_mean(weather);
  if (mean.count_missing() == mean.size()) return 0;
  std::optional<AirNormals> normals;  // of the days known at first; most records have no hole
  std::optional<Day> last_known;
  int filled = 0;
  for (Day day = mean.days().begin(); day < mean.days().end(); day += Days{1}) {
    if (!mean.at(day)) continue;
    if (last_known && day - *last_known > Days{1} && day - *last_known <= Days{longest_days + 1}) {
      const DayRange hole{*last_known + Days{1}, day};
      if (!normals) normals = fit_air_normals(weather, place, rules);
      const double anomaly = anomaly_around(mean, *normals, hole, Days{rules.around_gap_days});
      filled += fill_hole(weather, *normals, anomaly, hole, rules);
    }
    last_known = day;
  }
  return filled;
}

}  // namespace soilclock::advice
