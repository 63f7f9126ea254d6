// SPDX-License-Identifier: MIT
#include "emergence/release_by_cooling.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

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
    if (parts_ % lanes == 0) {  // of parts not set free yet nothing comes up
      shares_.insert(shares_.end(), lanes, 0.0);
      since_.insert(since_.end(), lanes, thermal_time);
    }
    shares_[parts_] = share;
    since_[parts_] = thermal_time;
    ++parts_;
  }

  /// Share of the pool up.
  double up(double thermal_time, int steepness) const {
    std::array<double, lanes> up{};
    for (std::size_t part = 0; part < parts_; part += lanes) {
      std::array<double, lanes> odds;
      odds.fill(1.0);
      for (int i = 0; i < steepness; ++i) {
        for (std::size_t lane = 0; lane < lanes; ++lane) odds[lane] *= thermal_time - since_[part + lane];
      }
      for (std::size_t lane = 0; lane < lanes; ++lane) {
        const double capped = std::min(odds[lane], most_odds);
        up[lane] += shares_[part + lane] * (capped / (1.0 + capped));
      }
    }
    return (up[0] + up[1]) + (up[2] + up[3]);
  }

 private:
  /// So many parts are worked on at a time, which compilers turn into instructions for several numbers.
  static constexpr std::size_t lanes = 4;
  std::size_t parts_ = 0;
  std::vector<double> shares_;  // a whole number of lanes
  std::vector<double> since_;
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
    const double before = thermal_time;
    bool unchanged = d > 0;
    thermal_time += wet * std::max(0.0, (soil - p.base).kelvin()) / p.half_up.celsius_days();
    if (day >= p.release_from_day) {
      const double able = releasable_share(p.ceiling, week[d].celsius(), p.ceiling_shift_c);
      if (able > released) {
        parts.add(able - released, thermal_time);
        released = able;
        unchanged = false;
      }
    }
    unchanged = unchanged && thermal_time == before;  // cold or dry days, in which nothing comes up
    autumn[d] = unchanged ? autumn[d - 1] : parts.up(thermal_time, p.steepness);
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
