// SPDX-License-Identifier: MIT
// A whole season of made-up weather for tests: soil by a formula, air equal to soil, rain unknown until set.
#pragma once

#include <functional>
#include <vector>

#include "emergence/season_drivers.hpp"

namespace testing {

class SeasonWeather {
 public:
  explicit SeasonWeather(const std::function<double(int)>& soil_celsius,
                         soilclock::Hemisphere hemisphere = soilclock::Hemisphere::north,
                         soilclock::SeasonKind kind = soilclock::SeasonKind::fall)
      : season_{soilclock::season_of(soilclock::make_day(2021, 8, 1), kind, hemisphere)} {
    for (int day = -soilclock::emergence::lead_in_days; day < season_.length(); ++day) {
      soil_.push_back(soilclock::Temperature::from_celsius(soil_celsius(day)));
      rain_.push_back(soilclock::Rain::unknown());
    }
  }

  int days() const { return season_.length(); }
  const soilclock::Season& season() const { return season_; }
  void set_rain(int season_day, double mm) {
    rain_[static_cast<std::size_t>(season_day + soilclock::emergence::lead_in_days)] =
        soilclock::Rain::from_mm(mm);
  }
  /// A view; this object must outlive it, and the next call ends it.
  soilclock::emergence::SeasonDrivers drivers(soilclock::emergence::Irrigation irrigation = {}) const {
    water_ = soilclock::emergence::week_of_water(rain_, irrigation, 4);
    return {season_, irrigation, soil_, soil_, soil_, water_, {0.9}};
  }

 private:
  soilclock::Season season_;
  std::vector<soilclock::Temperature> soil_;
  std::vector<soilclock::Rain> rain_;
  mutable std::vector<soilclock::Rain> water_;
};

}  // namespace testing
