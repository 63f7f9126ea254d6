// SPDX-License-Identifier: MIT
// Daily mean soil temperature from daily mean air temperature, latitude and date.
#pragma once

#include <array>
#include <optional>

#include "core/series.hpp"
#include "core/temperature.hpp"
#include "soil/soil_model.hpp"

namespace soilclock::soil {

/// The estimators are valid from 2.5 to 15 cm.
inline constexpr Depth shallowest = Depth::from_cm(2.5);
inline constexpr Depth deepest = Depth::from_cm(15.0);

/// Share of the way to the air that a memory of so many days goes in one.
double gain_per_day(double memory_days);

/// What the estimator remembers, Celsius: a history is run once and many futures are appended to copies of
/// it.
struct SoilState {
  double fast_shallow_c = 0.0;
  double fast_deep_c = 0.0;
  double slow_c = 0.0;
  int days_without_air = 0;
};

/// A state with every memory at one temperature.
SoilState uniform_state(Temperature temperature);

/// The recursion of the memory forms for one place and depth:
/// F += (1 - e^(-1/fast)) (air - F), S += (1 - e^(-1/slow)) (air - S),
/// T = b0 + b1 max(F,0) + b2 min(F,0) + b3 S + b4 Ra at the two depths of the pair, then the straight line in
/// depth.
class SoilEstimator {
 public:
  /// Depth 2.5 to 15 cm; outside it the nearest end is taken. Latitude may be empty for the one-memory form
  /// only, which does not use it. The offset is added to every estimate: what the user knows of this turf.
  SoilEstimator(const SoilModelPair& pair, Depth depth, std::optional<double> latitude_deg,
                TemperatureDelta offset = {});

  /// Takes a day's air into the memories and returns that day's soil temperature. With unknown air the slow
  /// memory is kept and the fast ones relax to it; after more such days in a row than are bridged the value
  /// is unknown.
  Temperature step(SoilState& state, Day day, Temperature air_mean) const;

  /// The start where no earlier weather is known, made from the first days of `air` from `first` on (known
  /// ones of the rules' start_days): the fast memories at their mean m, the slow one at
  /// m + A [cos(l) cos(w - l) - cos w], cos(l) being the share and l = atan(2 pi slow_memory / 365.25) the
  /// lag with which it follows an annual wave of amplitude A, that of the usual year, w = 2 pi (J - Jx) /
  /// 365.25, J the middle of those days, Jx the warmest day. Without a latitude the slow memory starts at m.
  SoilState latitude_start(const DailySeries<Temperature>& air, Day first) const;

  /// Runs a series through `state`, which ends as the state after its last day. Without a start the latitude
  /// start on the first known day is used; earlier weather of the site belongs at the front of the series.
  /// Days before the first known air and those of a gap beyond what is bridged are missing, all others
  /// "modelled"; after such a gap the estimate starts anew.
  DailySeries<Temperature> run(const DailySeries<Temperature>& air, std::optional<SoilState>& state) const;

  Depth depth() const { return depth_; }
  TemperatureDelta offset() const { return offset_; }
  const EstimateRules& rules() const { return rules_; }

 private:
  struct Coefficients {
    double fast_gain;
    double constant;
    double warm_slope;
    double cold_slope;
    double slow_slope;
    double radiation_slope;
    double at(double fast, double slow, double radiation) const {
      return constant + (fast > 0.0 ? warm_slope : cold_slope) * fast + slow_slope * slow +
             radiation_slope * radiation;
    }
  };
  static Coefficients coefficients_of(const SoilModel& model);

  EstimateRules rules_;
  Depth depth_;
  std::optional<double> latitude_deg_;
  TemperatureDelta offset_;
  Coefficients shallow_;
  Coefficients deep_;
  double slow_gain_;
  double slow_lag_;    // radians of the year; 0 without a slow memory
  double deep_share_;  // 0 at the shallow depth of the pair, 1 at the deep one, beyond outside
  std::array<double, 367> radiation_{};  // by day of year, MJ/m2
};

/// The estimate of a whole series; see SoilEstimator::run.
DailySeries<Temperature> estimate_soil(const DailySeries<Temperature>& air_mean,
                                       const SoilEstimator& estimator,
                                       std::optional<SoilState> start = std::nullopt);

/// The published canopy recursion over a series at a depth, started at the mean of its first known days: the
/// soil relaxes to the surface under a canopy. Missing air keeps the value for as long as a gap is bridged,
/// then the days are missing. Source: katterer-andren-2009 (Acta Agriculturae Scandinavica B 59:77-86).
DailySeries<Temperature> canopy_recursion(const DailySeries<Temperature>& air_mean, const SoilModel& model,
                                          Depth depth, const EstimateRules& rules);

}  // namespace soilclock::soil
