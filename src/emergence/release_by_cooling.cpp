// SPDX-License-Identifier: MIT
#include "emergence/release_by_cooling.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <span>
#include <vector>

#include "core/by_processor.hpp"

namespace soilclock::emergence {

namespace {

double moisture(Rain week, const Irrigation& irrigation, const ReleaseParameters& p) {
  if (irrigation.irrigated) return 1.0;
  if (!week.known()) return p.unknown_rain_speed;
  return std::clamp(week.mm() / p.full_water.mm(), p.dry_speed, 1.0);
}

constexpr double most_odds = 1e300;  // a great exponent would make them infinite, and the share no number

/// Numbers worked on at a time, in one instruction where the processor has it.
constexpr std::size_t lanes = 4;
using Lanes [[gnu::vector_size(lanes * sizeof(double))]] = double;
/// So many parts are worked on in one round.
constexpr std::size_t round = 2 * lanes;

/// Sum of the parts, a whole number of rounds, each with the share of it that is up.
SOILCLOCK_BY_PROCESSOR
double sum_up(std::span<const double> shares, std::span<const double> since, double thermal_time,
              int steepness) {
  Lanes up{};
  for (std::size_t part = 0; part < shares.size(); part += round) {
    std::array<Lanes, 2> share;
    std::array<Lanes, 2> age;
    std::memcpy(share.data(), &shares[part], sizeof share);
    std::memcpy(age.data(), &since[part], sizeof age);
    for (Lanes& each : age) each = thermal_time - each;
    std::array<Lanes, 2> odds{1.0 + Lanes{}, 1.0 + Lanes{}};
#pragma GCC unroll 4
    for (int power = 0; power < steepness; ++power) {
      odds[0] *= age[0];
      odds[1] *= age[1];
    }
    for (std::size_t i = 0; i < odds.size(); ++i) {
      const Lanes capped = odds[i] > most_odds ? most_odds + Lanes{} : odds[i];
      up += share[i] * (capped / (1.0 + capped));
    }
  }
  return (up[0] + up[1]) + (up[2] + up[3]);
}

/// The parts of the pool set free so far, day by day.
class Released {
 public:
  /// `thermal_time`: of moist days from the start of the season, in units of half_up.
  void add(double share, double thermal_time) {
    if (parts_ % round == 0) {  // of parts not set free yet nothing comes up
      shares_.insert(shares_.end(), round, 0.0);
      since_.insert(since_.end(), round, thermal_time);
    }
    shares_[parts_] = share;
    since_[parts_] = thermal_time;
    ++parts_;
  }

  /// Share of the pool up.
  double up(double thermal_time, int steepness) const {
    return sum_up(shares_, since_, thermal_time, steepness);
  }

 private:
  std::size_t parts_ = 0;
  std::vector<double> shares_;  // a whole number of rounds
  std::vector<double> since_;
};

}  // namespace

EmergenceCurve run_release_by_cooling(const SeasonDrivers& drivers, const ReleaseParameters& p) {
  const std::vector<Temperature> week = trailing_week(drivers.soil);
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
    const double wet = moisture(drivers.week_water[d], drivers.irrigation, p);
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
    if (day >= p.winter_from_day && day < p.winter_to_day && soil.celsius() > p.winter_soil.celsius())
      winter_sum += wet;
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
