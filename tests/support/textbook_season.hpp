// SPDX-License-Identifier: MIT
// The season of the worked table of control by date: a logistic main wave, a small late flush, a cosine of
// temperature.
#pragma once

#include <cmath>
#include <numbers>
#include <optional>
#include <vector>

#include "emergence/growth_model.hpp"
#include "treatment/expected_control.hpp"

namespace soilclock::treatment {

/// Days count from 1 September; the season covers day -72 (21 June) to 292. Moves the wave or cools the year
/// on request.
class TextbookSeason {
 public:
  explicit TextbookSeason(const emergence::GrowthModel& growth, double later_days = 0.0,
                          double warmer_k = 0.0, std::optional<double> leaf_interval_c_days = {})
      : leaf_interval_{leaf_interval_c_days.value_or(growth.phyllochron.value)}, limits_{growth.limits} {
    double age = 0.0;
    for (int day = first_day; day <= last_day; ++day) {
      share_.push_back(emerged(day + 0.0 - later_days) - emerged(day - 1.0 - later_days));
      const double celsius = 16.0 + warmer_k + 10.0 * std::cos(2.0 * std::numbers::pi * (day + 37.0) / 365.0);
      soil_.push_back(Temperature::from_celsius(celsius));
      age += std::max(celsius, 0.0);
      age_.push_back(age);
    }
  }

  /// Share of the season up by the end of a day.
  static double emerged(double day) {
    const double main_wave = 1.0 / (1.0 + std::exp(-(day - 52.0) / 12.0));
    const double late_flush = 0.5 * std::erfc(-(day - 167.0) / (15.0 * std::numbers::sqrt2));
    return 0.92 * main_wave + 0.08 * late_flush;
  }

  static Day day(int from_first_of_september) { return make_day(2021, 9, 1) + Days{from_first_of_september}; }

  SeasonCohorts cohorts() const {
    return {day(first_day), share_, age_, soil_, soil_, leaf_interval_, limits_};
  }

  static constexpr int first_day = -72;
  static constexpr int last_day = 292;

 private:
  double leaf_interval_;
  emergence::StageLimits limits_;
  std::vector<double> share_;
  std::vector<double> age_;
  std::vector<Temperature> soil_;
};

}  // namespace soilclock::treatment
