// SPDX-License-Identifier: MIT
#include "soil/probe_rules.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace soilclock::soil {

namespace {

constexpr double hours_per_radian = 24.0 / (2.0 * std::numbers::pi);
constexpr double anchor_hour = 6.0;

DailyWave wave_of(const WaveAnchor& anchor) {
  const double at_six = std::sin((anchor_hour - anchor.mean_hour) / hours_per_radian);
  return {-anchor.below_mean_at_6 / at_six, anchor.mean_hour};
}

/// The wave so many damping depths further down (negative: up).
DailyWave deeper(const DailyWave& wave, double damping_depths) {
  return {wave.share * std::exp(-damping_depths), wave.mean_hour + damping_depths * hours_per_radian};
}

/// Where a depth lies between the anchors: 0 at the shallow one, 1 at the deep one, beyond outside.
double way_down(const ProbeRules& rules, Depth depth) {
  return (depth.cm() - rules.shallow.depth.cm()) / (rules.deep.depth.cm() - rules.shallow.depth.cm());
}

}  // namespace

DailyWave daily_wave(const ProbeRules& rules, Depth depth) {
  const DailyWave shallow = wave_of(rules.shallow);
  const DailyWave deep = wave_of(rules.deep);
  const double way = way_down(rules, depth);
  if (way < 0.0) return deeper(shallow, (depth.m() - rules.shallow.depth.m()) / rules.damping_depth.m());
  if (way > 1.0) return deeper(deep, (depth.m() - rules.deep.depth.m()) / rules.damping_depth.m());
  return {shallow.share * std::pow(deep.share / shallow.share, way),
          shallow.mean_hour + way * (deep.mean_hour - shallow.mean_hour)};
}

TemperatureDelta mean_minus_reading(const DailyWave& wave, double hour, TemperatureDelta air_range) {
  return -wave.share * std::sin((hour - wave.mean_hour) / hours_per_radian) * air_range;
}

double variance_left_k2(const ProbeRules& rules, Depth depth) {
  const double way = std::clamp(way_down(rules, depth), 0.0, 1.0);
  const TemperatureDelta sd = rules.shallow.sd_left + way * (rules.deep.sd_left - rules.shallow.sd_left);
  return sd.kelvin() * sd.kelvin();
}

double unknown_hour_variance_k2(const DailyWave& wave, TemperatureDelta air_range) {
  const double half_range = wave.share * air_range.kelvin();
  return 0.5 * half_range * half_range;
}

double spot_variance_k2(const ProbeRules& rules, int spots) {
  const double one = rules.one_spot_sd.kelvin() * rules.one_spot_sd.kelvin();
  const double four = rules.four_spots_sd.kelvin() * rules.four_spots_sd.kelvin();
  const double own = (one - four) / (1.0 - 1.0 / 4.0);
  return one - own + own / spots;
}

}  // namespace soilclock::soil
