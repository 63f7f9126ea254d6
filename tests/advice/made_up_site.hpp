// SPDX-License-Identifier: MIT
// A made-up site whose usual year is known exactly.
#pragma once

#include <cmath>
#include <functional>
#include <numbers>

#include "advice/site/site_weather.hpp"
#include "core/random.hpp"
#include "support/shipped_catalogue.hpp"

namespace soilclock::tests {

inline Temperature celsius(double value) { return Temperature::from_celsius(value); }

/// mean + amplitude * cos, warmest on 19 July.
inline double annual_wave(Day day, double mean, double amplitude) {
  return mean + amplitude * std::cos(2.0 * std::numbers::pi * (day_of_year(day) - 200) / 365.25);
}

/// Air of a range of days, six degrees to either side of the mean `mean_c` gives.
inline weather::DailyWeather air_of(DayRange days, const std::function<double(Day)>& mean_c) {
  weather::DailyWeather weather;
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    weather.air_min.set(day, celsius(mean_c(day) - 6.0), Quality::measured);
    weather.air_max.set(day, celsius(mean_c(day) + 6.0), Quality::measured);
  }
  return weather;
}

/// Day-to-day noise with a memory, stationary, the same for the same day.
class Noise {
 public:
  Noise(Day first, int days, double sd, double memory) : first_{first} {
    const RandomField random{11};
    double value = sd * random.normal(1, 0);
    for (int i = 0; i < days; ++i) {
      values_.push_back(value);
      value = memory * value +
              sd * std::sqrt(1.0 - memory * memory) * random.normal(1, static_cast<std::uint64_t>(i) + 1);
    }
  }
  double on(Day day) const { return values_.at(static_cast<std::size_t>((day - first_).count())); }

 private:
  Day first_;
  std::vector<double> values_;
};

inline const Place carolina{36.0, -79.0, {}};

/// A site with a record up to the day before `on`.
inline advice::SiteWeather site_with(weather::DailyWeather daily, Day on) {
  advice::SiteWeather site;
  site.place = carolina;
  site.on = on;
  site.outlook_start = daily.air_min.days().end();
  site.last_measured = site.outlook_start - Days{1};
  site.irrigation = {true, 0.0};
  site.daily = std::move(daily);
  return site;
}

}  // namespace soilclock::tests
