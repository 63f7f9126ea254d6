// SPDX-License-Identifier: MIT
// The daily wave of heat in the ground: what a probe shows at a clock hour against the mean of its day.
#pragma once

#include "core/depth.hpp"
#include "core/temperature.hpp"

namespace soilclock::soil {

/// Diffusivity of moist loam, m2 per second; sandy root zones come near 0.9e-6, dry loam near 0.3e-6.
/// Basis: derived from Johansen's conductivity (1975) and de Vries's heat capacity.
inline constexpr double moist_loam_diffusivity_m2_s = 0.5e-6;

/// Hour of the warmest surface under turf, local standard time. Basis: judgement; 13 to 15 is usual.
inline constexpr double warmest_surface_hour = 14.0;

/// Depth at which a wave of the period is down to 1/e: d = sqrt(2 a / w). Diffusivity in m2 per second and
/// period in days, both above 0. Source: the textbook solution of the heat equation (Carslaw & Jaeger 1959,
/// Conduction of heat in solids; Campbell & Norman 1998, An introduction to environmental biophysics).
Depth damping_depth(double diffusivity_m2_s, double period_days);

/// Share of the surface's half-range left at a depth: e^(-z/d).
double amplitude_left(Depth depth, Depth damping);

/// How many hours the daily wave comes later at a depth than at the surface: (z/d) 24 / (2 pi).
double daily_lag_hours(Depth depth, Depth damping);

/// How the temperature at a depth swings through a day.
struct DailySwing {
  TemperatureDelta half_range;
  double warmest_hour = 0.0;  ///< local standard time

  /// Departure from the daily mean at a clock hour 0..24.
  TemperatureDelta at(double hour) const;
};

/// The swing at a depth for the surface's daily range, under turf about that of the air.
DailySwing daily_swing(TemperatureDelta surface_range, Depth depth,
                       double diffusivity_m2_s = moist_loam_diffusivity_m2_s);

/// A daily mean made from a reading at one hour, with what that adds to the reading's error variance.
struct DailyMeanReading {
  Temperature mean;
  double extra_variance_k2 = 0.0;
};

/// Takes the swing out of a reading at a clock hour. The extra variance grows with the swing: 30 percent of
/// the departure for the unknown range and diffusivity, 1.5 h for the hour of the warmest surface. Basis:
/// judgement.
DailyMeanReading daily_mean_from_reading(Temperature reading, double hour, const DailySwing& swing);

}  // namespace soilclock::soil
