// SPDX-License-Identifier: MIT
#include "emergence/gated_clock.hpp"

#include <algorithm>
#include <cmath>

namespace soilclock::emergence {

namespace {

double rising(double x) { return 1.0 / (1.0 + std::exp(-x)); }

/// Speed left by the water of the last seven days, 0..1.
double wetness(Rain week, const Irrigation& irrigation, const GatedClockParameters& p) {
  if (!week.known())
    return irrigation.irrigated ? std::max(p.unknown_rain_speed, p.irrigated_speed) : p.unknown_rain_speed;
  const double wet = p.dry_speed + (1.0 - p.dry_speed) * std::clamp(week.mm() / p.full_water.mm(), 0.0, 1.0);
  return irrigation.irrigated ? std::max(wet, p.irrigated_speed) : wet;
}

}  // namespace

EmergenceCurve run_gated_clock(const SeasonDrivers& drivers, const GatedClockParameters& p) {
  const std::vector<Temperature> week = trailing_week(drivers.soil);
  const std::size_t days = week.size();
  // The autumn wave and the remainder, both still without their totals.
  std::vector<double> autumn(days);
  std::vector<double> remainder(days);
  double ready = 0.0;
  double known_lags = 0.0;
  double waiting = 1.0;  // of those ready, the share that does not come up on a day of so many lags
  double up = 0.0;
  double later = 0.0;
  for (std::size_t d = 0; d < days; ++d) {
    const Temperature soil = week[d];
    const double cold =
        std::clamp((soil - p.cold_stop).kelvin() / (p.cold_full - p.cold_stop).kelvin(), 0.0, 1.0);
    const double rest = rising((static_cast<double>(d) - p.rest_middle_day) / p.rest_scale_days);
    const double cooled = rising((p.crossing - soil).kelvin() / p.width.kelvin());
    const double wet = wetness(drivers.week_water[d], drivers.irrigation, p);
    ready += (1.0 - ready) * (1.0 - std::exp(-rest * cold / p.release_scale_days * cooled));
    // The same on most days: moist, and warm enough.
    const double lags = -wet * std::max(cold, p.weakest_cold_gate) / p.lag_days;
    if (lags != known_lags) waiting = std::exp(known_lags = lags);
    up += (ready - up) * (1.0 - waiting);
    const double later_cooled =
        rising(((p.crossing - soil).kelvin() + p.winter_crossing_shift.kelvin()) / p.width.kelvin());
    later += cold * later_cooled * up * (p.winter_dry_speed + (1.0 - p.winter_dry_speed) * wet);
    autumn[d] = up;
    remainder[d] = later;
  }
  EmergenceCurve curve;
  curve.up.resize(days);
  if (days == 0 || up <= 0.0 || later <= 0.0) return curve;
  for (std::size_t d = 0; d < days; ++d) {
    if (!curve.main_wave_over && autumn[d] >= drivers.rules.main_wave_over * up)
      curve.main_wave_over = static_cast<int>(d);
    curve.up[d] = p.autumn_share * autumn[d] / up + (1.0 - p.autumn_share) * remainder[d] / later;
  }
  return curve;
}

}  // namespace soilclock::emergence
