// SPDX-License-Identifier: MIT
#include "emergence/release_by_cooling.hpp"

#include <algorithm>
#include <cmath>

namespace soilclock::emergence {

namespace {

double moisture(Rain week, const Irrigation& irrigation, const ReleaseParameters& p) {
  if (irrigation.irrigated) return 1.0;
  if (!week.known()) return p.unknown_rain_speed;
  return std::clamp(week.mm() / p.full_water.mm(), p.dry_speed, 1.0);
}

/// A whole power; std::pow with its general exponent would be most of this file's run time.
double power(double base, int exponent) {
  double result = 1.0;
  for (int i = 0; i < exponent; ++i) result *= base;
  return result;
}

constexpr double most_odds = 1e300;  // a great exponent would make them infinite, and the share no number

/// A part of the pool set free on one day.
struct Released {
  double share;
  double thermal_time;  ///< at its release, of moist days from the start of the season, in units of half_up
};

}  // namespace

EmergenceCurve run_release_by_cooling(const SeasonDrivers& drivers, const ReleaseParameters& p) {
  const std::vector<Temperature> week = trailing_week(drivers.soil);
  const std::vector<Rain> water = week_of_water(drivers);
  const std::size_t days = week.size();
  std::vector<double> autumn(days);
  std::vector<double> winter(days);
  std::vector<Released> parts;
  double released = 0.0;
  double thermal_time = 0.0;
  double winter_sum = 0.0;
  for (std::size_t d = 0; d < days; ++d) {
    const int day = static_cast<int>(d);
    const Temperature soil = drivers.soil[d + lead_in_days];
    const double wet = moisture(water[d], drivers.irrigation, p);
    thermal_time += wet * std::max(0.0, (soil - p.base).kelvin()) / p.half_up.celsius_days();
    if (day >= p.release_from_day) {
      const double able = releasable_share(p.ceiling, week[d].celsius(), p.ceiling_shift_c);
      if (able > released) {
        parts.push_back({able - released, thermal_time});
        released = able;
      }
    }
    double up = 0.0;
    for (const Released& part : parts) {
      const double run = thermal_time - part.thermal_time;
      if (run <= 0.0) continue;
      const double odds = std::min(power(run, p.steepness), most_odds);
      up += part.share * (odds / (1.0 + odds));
    }
    autumn[d] = up;
    if (day >= p.winter_from_day && day < p.winter_to_day && soil > p.winter_soil) winter_sum += wet;
    winter[d] = winter_sum;
  }
  EmergenceCurve curve;
  curve.up.resize(days);
  if (days == 0 || autumn.back() <= 0.0) return curve;
  // A winter too cold for any emergence leaves its share to the autumn part.
  const double autumn_share = winter_sum > 0.0 ? p.autumn_share : 1.0;
  for (std::size_t d = 0; d < days; ++d) {
    if (!curve.main_wave_over && autumn[d] >= drivers.rules.main_wave_over * autumn.back())
      curve.main_wave_over = static_cast<int>(d);
    curve.up[d] = autumn_share * autumn[d] / autumn.back();
    if (winter_sum > 0.0) curve.up[d] += (1.0 - autumn_share) * winter[d] / winter_sum;
  }
  return curve;
}

}  // namespace soilclock::emergence
