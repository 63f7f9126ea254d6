// SPDX-License-Identifier: MIT
// The covariance of the soil estimate's error as models/README.md prints it, written out once more.
#pragma once

#include <chrono>
#include <cmath>
#include <cstdlib>

#include "soil/soil_model.hpp"

namespace soilclock::tests {

/// The printed covariance of the error on two days.
inline double error_covariance(const soil::SoilErrorModel& model, Hemisphere hemisphere, Day a, Day b) {
  const auto lag = static_cast<double>(std::abs((a - b).count()));
  const auto day_number = [&](Day day) {
    return day_of_year(day) + (hemisphere == Hemisphere::south ? 182.0 : 0.0);
  };
  const double per_day = 2.0 * std::acos(-1.0) / 365.25;
  const double at_a = per_day * day_number(a);
  const double at_b = per_day * day_number(b);
  const auto season = [&](double at) {
    return 1.0 + model.season_amplitude * std::cos(at - per_day * model.season_peak_day_of_year);
  };
  return model.constant_variance + model.annual_cosine_variance * std::cos(at_a) * std::cos(at_b) +
         model.annual_sine_variance * std::sin(at_a) * std::sin(at_b) +
         season(at_a) * season(at_b) *
             (model.slow_variance * std::exp(-lag / model.slow_days) +
              model.fast_variance * std::pow(model.fast_lag1, lag));
}

}  // namespace soilclock::tests
