// SPDX-License-Identifier: MIT
// The possible courses of a site's weather and soil: what is known, continued by possible futures, with the
// error of the soil estimate drawn member by member.
#pragma once

#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "advice/futures/futures.hpp"
#include "advice/futures/stratified_draws.hpp"
#include "advice/site/site_soil.hpp"
#include "advice/site/site_weather.hpp"
#include "core/random.hpp"
#include "soil/soil_temperature.hpp"

namespace soilclock::advice {

/// Air and rain of one course over the days of the scenarios; the same for all members that share a future.
struct WeatherTrace {
  std::vector<Temperature> air_mean;
  std::vector<Temperature> air_max;
  std::vector<Rain> rain;
  std::vector<Temperature> soil_estimate;           ///< at 5 cm, before its error
  std::vector<TemperatureDelta> shallow_minus_5cm;  ///< estimate at 2.5 cm minus that at 5 cm
};

/// Soil of one member, true temperatures in its eyes.
struct MemberSoil {
  std::vector<Temperature> at_5cm;
  std::vector<Temperature> shallow;  ///< 2.5 cm
};

/// First day of the unbroken run of days with both air extremes that ends just before the outlook start; the
/// outlook start itself when the day before it is missing.
Day complete_since(const SiteWeather& site);

/// All courses over `span`: what is known, then each member of the forecast where there are any, then each
/// future. Days of the span before complete_since() hold the temperatures of the first known
/// day and unknown rain: callers make sure that no model needs them.
class Scenarios {
 public:
  Scenarios(const SiteWeather& site, const soil::SoilModels& models, const FutureRules& rules,
            const SiteSoil& soil, DayRange span, const StratifiedDraws& draws, std::uint64_t seed);

  DayRange days() const { return span_; }
  int members() const { return static_cast<int>(future_of_.size()); }
  const WeatherTrace& weather_of(int member) const { return traces_[trace_of(member)]; }
  /// The place of a member's course in traces().
  std::size_t trace_of(int member) const { return future_of_[static_cast<std::size_t>(member)]; }
  const std::vector<WeatherTrace>& traces() const { return traces_; }
  MemberSoil soil_of(int member) const;

  const Futures& futures() const { return futures_; }

 private:
  std::size_t index(Day day) const { return static_cast<std::size_t>((day - span_.begin()).count()); }

  DayRange span_;
  Futures futures_;
  std::vector<WeatherTrace> traces_;
  std::vector<std::size_t> future_of_;
  /// How much of an error of the air in guessed days (filled from past years or normals) the soil holds, by
  /// day, and each member's error of that air.
  std::vector<double> guess_response_;
  std::vector<TemperatureDelta> guess_error_;
  std::vector<std::pair<std::size_t, Temperature>>
      measured_;  // daily means at 5 cm, with the day of the span
  soil::ConditionedSoilError error_;
  RandomField random_;
};

}  // namespace soilclock::advice
