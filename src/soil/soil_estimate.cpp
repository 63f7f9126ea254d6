// SPDX-License-Identifier: MIT
#include "soil/soil_estimate.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "soil/radiation.hpp"

namespace soilclock::soil {

namespace {

constexpr double days_a_year = 365.25;

double slow_memory_of(const SoilModel& model) {
  return model.form == SoilForm::two_memories ? model.parameter("slow_memory") : 0.0;
}

/// Mean of the known values among so many days from `first` on; the caller makes sure there is one.
double mean_of_start(const DailySeries<Temperature>& air, Day first, int start_days) {
  double sum = 0.0;
  int count = 0;
  for (Day day = first; day < first + Days{start_days}; day += Days{1}) {
    if (const auto value = air.at(day)) {
      sum += value->celsius();
      ++count;
    }
  }
  return sum / count;
}

}  // namespace

double gain_per_day(double memory_days) { return -std::expm1(-1.0 / memory_days); }

SoilState uniform_state(Temperature temperature) {
  return {temperature.celsius(), temperature.celsius(), temperature.celsius(), 0};
}

SoilEstimator::Coefficients SoilEstimator::coefficients_of(const SoilModel& model) {
  Coefficients result{gain_per_day(model.parameter("fast_memory")),
                      model.parameter("constant"),
                      model.parameter("warm_slope"),
                      model.parameter("cold_slope"),
                      0.0,
                      0.0};
  if (model.form == SoilForm::two_memories) {
    result.slow_slope = model.parameter("slow_slope");
    result.radiation_slope = model.parameter("radiation_slope");
  }
  return result;
}

SoilEstimator::SoilEstimator(const SoilModelPair& pair, Depth depth, std::optional<double> latitude_deg,
                             TemperatureDelta offset)
    : rules_{pair.rules},
      depth_{std::clamp(depth, shallowest, deepest)},
      latitude_deg_{latitude_deg},
      offset_{offset},
      shallow_{coefficients_of(pair.shallow)},
      deep_{coefficients_of(pair.deep)},
      slow_gain_{pair.shallow.form == SoilForm::two_memories ? gain_per_day(slow_memory_of(pair.shallow))
                                                             : 0.0},
      slow_lag_{std::atan(2.0 * std::numbers::pi * slow_memory_of(pair.shallow) / days_a_year)},
      deep_share_{(depth_.cm() - pair.shallow.depth->cm()) /
                  (pair.deep.depth->cm() - pair.shallow.depth->cm())} {
  for (int doy = 1; latitude_deg && doy <= 366; ++doy) {
    radiation_[static_cast<std::size_t>(doy)] = extraterrestrial_radiation_mj_m2(*latitude_deg, doy);
  }
}

Temperature SoilEstimator::step(SoilState& state, Day day, Temperature air_mean) const {
  if (air_mean.known()) {
    const double air = air_mean.celsius();
    state.fast_shallow_c += shallow_.fast_gain * (air - state.fast_shallow_c);
    state.fast_deep_c += deep_.fast_gain * (air - state.fast_deep_c);
    state.slow_c += slow_gain_ * (air - state.slow_c);
    state.days_without_air = 0;
  } else {
    if (slow_gain_ > 0.0) {  // the one-memory form has nothing to relax to and keeps its value
      state.fast_shallow_c += shallow_.fast_gain * (state.slow_c - state.fast_shallow_c);
      state.fast_deep_c += deep_.fast_gain * (state.slow_c - state.fast_deep_c);
    }
    if (++state.days_without_air > rules_.bridged_gap_days) return Temperature::unknown();
  }
  const double radiation = radiation_[static_cast<std::size_t>(day_of_year(day))];
  const double shallow = shallow_.at(state.fast_shallow_c, state.slow_c, radiation);
  const double deep = deep_.at(state.fast_deep_c, state.slow_c, radiation);
  return Temperature::from_celsius(shallow + deep_share_ * (deep - shallow)) + offset_;
}

SoilState SoilEstimator::latitude_start(const DailySeries<Temperature>& air, Day first) const {
  const double mean = mean_of_start(air, first, rules_.start_days);
  SoilState state = uniform_state(Temperature::from_celsius(mean));
  if (!latitude_deg_) return state;
  const double amplitude = rules_.usual_year.amplitude_kelvin(*latitude_deg_);
  const int warmest_day =
      rules_.usual_year.warmest_day(*latitude_deg_ < 0.0 ? Hemisphere::south : Hemisphere::north);
  const double middle = day_of_year(first) + 0.5 * (rules_.start_days - 1);
  const double wave = 2.0 * std::numbers::pi * (middle - warmest_day) / days_a_year;
  state.slow_c = mean + amplitude * (std::cos(slow_lag_) * std::cos(wave - slow_lag_) - std::cos(wave));
  return state;
}

DailySeries<Temperature> SoilEstimator::run(const DailySeries<Temperature>& air,
                                            std::optional<SoilState>& state) const {
  DailySeries<Temperature> soil{air.days()};
  for (Day day = air.first(); day < air.days().end(); day += Days{1}) {
    const auto value = air.at(day);
    const bool anew = !state || state->days_without_air > rules_.bridged_gap_days;
    if (anew && value) state = latitude_start(air, day);
    if (!state) continue;
    const Temperature estimate = step(*state, day, value.value_or(Temperature::unknown()));
    if (estimate.known()) soil.set(day, estimate, Quality::modelled);
  }
  return soil;
}

DailySeries<Temperature> estimate_soil(const DailySeries<Temperature>& air_mean,
                                       const SoilEstimator& estimator, std::optional<SoilState> start) {
  return estimator.run(air_mean, start);
}

DailySeries<Temperature> canopy_recursion(const DailySeries<Temperature>& air_mean, const SoilModel& model,
                                          Depth depth, const EstimateRules& rules) {
  DailySeries<Temperature> soil{air_mean.days()};
  std::map<std::string, double> input{{"depth_cm", depth.cm()}};
  std::optional<double> before;
  int days_without_air = 0;
  for (Day day = air_mean.first(); day < air_mean.days().end(); day += Days{1}) {
    if (const auto air = air_mean.at(day)) {
      if (!before || days_without_air > rules.bridged_gap_days)
        before = mean_of_start(air_mean, day, rules.start_days);
      days_without_air = 0;
      input["air_c"] = air->celsius();
      input["soil_before_c"] = *before;
      before = value_at(model, input);
    } else {
      ++days_without_air;
    }
    if (before && days_without_air <= rules.bridged_gap_days) {
      soil.set(day, Temperature::from_celsius(*before), Quality::modelled);
    }
  }
  return soil;
}

}  // namespace soilclock::soil
