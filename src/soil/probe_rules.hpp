// SPDX-License-Identifier: MIT
// What a probe read by the clock says about the mean of its day: the daily wave of heat in the ground and the
// error of a spot, as models/soil/probe_reading.json has them.
#pragma once

#include <string>
#include <string_view>

#include "core/depth.hpp"
#include "core/problem.hpp"
#include "core/temperature.hpp"

namespace soilclock::soil {

/// The daily wave as it was seen at one depth. Hours are standard time.
struct WaveAnchor {
  Depth depth = Depth::from_cm(5.0);
  double below_mean_at_6 = 0.0;  ///< share of the day's range of air by which 6 a.m. lies below the mean
  double mean_hour = 0.0;        ///< hour of the rising soil meeting the mean of its day, 6..18
  TemperatureDelta sd_left;      ///< what the corrected reading of a perfect probe is still off
};

struct ProbeRules {
  WaveAnchor shallow;
  WaveAnchor deep;
  Depth damping_depth = Depth::from_cm(10.0);  ///< above the shallow anchor and below the deep one
  TemperatureDelta usual_air_range;            ///< where a day has none
  TemperatureDelta one_spot_sd;                ///< one reading as the site's daily mean, the hour apart
  TemperatureDelta four_spots_sd;              ///< the mean of four spots of one day
  double same_depth_cm = 0.0;                  ///< readings closer in depth are spots of one depth
  int shown_for_days = 0;                      ///< that an answer says how a reading was used
  double change_variance_k2_per_day = 0.0;     ///< of the soil between the last day of air and a reading
  TemperatureDelta worth_explaining;  ///< correction from which on the better hour is worth a sentence
};

/// Reads the file. Problems (request): unknown or missing keys, a wrong unit, a number out of range or
/// without grounds, a deep anchor that does not lie below the shallow one.
Result<ProbeRules> read_probe_rules(std::string_view text, const std::string& file);

/// The wave at a depth: departure from the mean of the day at an hour h is
/// share * range of air * sin(2 pi (h - mean_hour) / 24).
struct DailyWave {
  double share = 0.0;      ///< half the soil's range as a share of the range of air
  double mean_hour = 0.0;  ///< standard time; a reading at this hour needs no correction
};

/// Passes through both anchors at 6 a.m. and through nothing at their mean hours. Between them the logarithm
/// of the share and the hour follow the straight line; outside, the share shrinks by e and the hour moves by
/// 24 / (2 pi) with every damping depth, as the solution of the heat equation has it (Carslaw & Jaeger 1959,
/// Conduction of heat in solids).
DailyWave daily_wave(const ProbeRules& rules, Depth depth);

/// What is added to a reading at an hour of standard time to get the mean of its day; any hour, since the
/// wave repeats. `air_range` is the day's maximum minus its minimum, 0 or more.
TemperatureDelta mean_minus_reading(const DailyWave& wave, double hour, TemperatureDelta air_range);

/// Error variance that the correction leaves, K2: on the straight line between the anchors, their own values
/// beyond.
double variance_left_k2(const ProbeRules& rules, Depth depth);

/// Error variance of a reading at an hour nobody noted, taken as the mean of its day, K2: the mean square of
/// the wave over the day.
double unknown_hour_variance_k2(const DailyWave& wave, TemperatureDelta air_range);

/// Error variance of the mean of so many spots (at least 1) read on one day, K2: a part all share and a part
/// that shrinks with their number, so that one and four spots have the variances of the file.
double spot_variance_k2(const ProbeRules& rules, int spots);

}  // namespace soilclock::soil
