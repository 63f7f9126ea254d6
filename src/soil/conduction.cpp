// SPDX-License-Identifier: MIT
#include "soil/conduction.hpp"

#include <cmath>
#include <numbers>

namespace soilclock::soil {

namespace {

constexpr double hours_per_turn = 24.0 / (2.0 * std::numbers::pi);

}  // namespace

Depth damping_depth(double diffusivity_m2_s, double period_days) {
  const double angular_speed = 2.0 * std::numbers::pi / (period_days * 86400.0);
  return Depth::from_cm(100.0 * std::sqrt(2.0 * diffusivity_m2_s / angular_speed));
}

double amplitude_left(Depth depth, Depth damping) { return std::exp(-depth.m() / damping.m()); }

double daily_lag_hours(Depth depth, Depth damping) { return depth.m() / damping.m() * hours_per_turn; }

TemperatureDelta DailySwing::at(double hour) const {
  return half_range * std::cos((hour - warmest_hour) / hours_per_turn);
}

DailySwing daily_swing(TemperatureDelta surface_range, Depth depth, double diffusivity_m2_s) {
  const Depth damping = damping_depth(diffusivity_m2_s, 1.0);
  return {0.5 * amplitude_left(depth, damping) * surface_range,
          warmest_surface_hour + daily_lag_hours(depth, damping)};
}

DailyMeanReading daily_mean_from_reading(Temperature reading, double hour, const DailySwing& swing) {
  constexpr double size_error = 0.30;
  constexpr double timing_error_hours = 1.5;
  const TemperatureDelta departure = swing.at(hour);
  const double by_size = size_error * departure.kelvin();
  const double slope_per_hour =
      swing.half_range.kelvin() * std::sin((hour - swing.warmest_hour) / hours_per_turn) / hours_per_turn;
  const double by_timing = timing_error_hours * slope_per_hour;
  return {reading - departure, by_size * by_size + by_timing * by_timing};
}

}  // namespace soilclock::soil
