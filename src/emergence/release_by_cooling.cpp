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

constexpr double most_odds = 1e300;  // a great exponent would make them infinite, and the share no number

/// The parts of the pool set free so far, day by day.
class Released {
 public:
  /// `thermal_time`: of moist days from the start of the season, in units of half_up.
  void add(double share, double thermal_time) {
    shares_.push_back(share);
    since_.push_back(thermal_time);
  }

  /// Share of the pool up. Each step is a loop of its own over all parts, which compilers make short work of.
  double up(double thermal_time, int steepness) {
    odds_.assign(since_.size(), 1.0);
    for (int i = 0; i < steepness; ++i) {
      for (std::size_t part = 0; part < odds_.size(); ++part) odds_[part] *= thermal_time - since_[part];
    }
    for (std::size_t part = 0; part < odds_.size(); ++part) {
      const double odds = std::min(odds_[part], most_odds);
      odds_[part] = shares_[part] * (odds / (1.0 + odds));
    }
    double up = 0.0;
    for (const double part : odds_) up += part;
    return up;
  }

 private:
  std::vector<double> shares_;
  std::vector<double> since_;
  std::vector<double> odds_;
};

}  // namespace

EmergenceCurve run_release_by_cooling(const SeasonDrivers& drivers, const ReleaseParameters& p) {
  const std::vector<Temperature> week = trailing_week(drivers.soil);
  const std::vector<Rain> water = week_of_water(drivers);
  const std::size_t days = week.size();
  std::vector<double> autumn(days);
  std::vector<double> winter(days);
  Released parts;
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
        parts.add(able - released, thermal_time);
        released = able;
      }
    }
    autumn[d] = parts.up(thermal_time, p.steepness);
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
