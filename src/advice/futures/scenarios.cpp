// SPDX-License-Identifier: MIT
#include "advice/futures/scenarios.hpp"

#include <algorithm>
#include <utility>

namespace soilclock::advice {

namespace {

struct Estimators {
  soil::SoilEstimator at_5cm;
  soil::SoilEstimator shallow;
  Estimators(const soil::SoilChoice& choice, const Place& place)
      : at_5cm{choice.pair, Depth::from_cm(5.0), place.latitude_deg},
        shallow{choice.pair, soil::shallowest, place.latitude_deg} {}
};

/// Appends one day of a course.
void append(WeatherTrace& trace, const Estimators& estimators, soil::SoilState& state, Day day,
            Temperature low, Temperature high, Rain rain, TemperatureDelta offset) {
  const Temperature mean = midpoint(low, high);
  soil::SoilState shallow_state =
      state;  // both depths share the memories, so the day is stepped once for each
  const Temperature at_5cm = estimators.at_5cm.step(state, day, mean) + offset;
  const Temperature shallow = estimators.shallow.step(shallow_state, day, mean) + offset;
  trace.air_mean.push_back(mean);
  trace.air_max.push_back(high);
  trace.rain.push_back(rain);
  trace.soil_estimate.push_back(at_5cm);
  trace.shallow_minus_5cm.push_back(shallow - at_5cm);
}

/// The days of the span before `end`, the same in every course.
WeatherTrace known_trace(const SiteWeather& site, const SiteSoil& soil, DayRange span, Day end) {
  const Day known_from = std::max(span.begin(), complete_since(site));
  WeatherTrace known;
  for (Day day = span.begin(); day < std::min(end, span.end()); day += Days{1}) {
    const Day source = std::max(day, known_from);
    const Temperature high = *site.daily.air_max.at(source);
    const Temperature at_5cm = soil.at_5cm.estimate.at(source).value_or(Temperature::unknown());
    known.air_mean.push_back(midpoint(*site.daily.air_min.at(source), high));
    known.air_max.push_back(high);
    known.rain.push_back(site.daily.rain.at(day).value_or(Rain::unknown()));
    known.soil_estimate.push_back(at_5cm);
    known.shallow_minus_5cm.push_back(soil.shallow.at(source).value_or(Temperature::unknown()) - at_5cm);
  }
  return known;
}

/// The soil's memories in the morning of a day of the record.
soil::SoilState state_at(const SiteWeather& site, const Estimators& estimators, Day day) {
  const DailySeries<Temperature> air = weather::air_mean(site.daily);
  std::optional<soil::SoilState> state;
  estimators.at_5cm.run(air.slice({air.first(), day}), state);
  return state.value_or(soil::SoilState{});
}

/// Each future follows each of so many members of the forecast, that all futures come equally often and all
/// members nearly so.
std::vector<std::pair<std::size_t, std::size_t>> pairs(std::size_t futures, std::size_t members) {
  const std::size_t rounds = members == 0 ? 1 : (members + futures - 1) / futures;
  std::vector<std::pair<std::size_t, std::size_t>> result;
  for (std::size_t i = 0; i < rounds * futures; ++i)
    result.emplace_back(i % futures, members == 0 ? 0 : i % members);
  return result;
}

/// How much of an error of the air in guessed days the soil holds, by day: the fast part of the estimate, on
/// days above freezing.
std::vector<double> response_to_guesses(const weather::DailyWeather& daily, DayRange span,
                                        const soil::SoilModel& at_5cm) {
  const double gain = soil::gain_per_day(at_5cm.parameter("fast_memory"));
  const double share_of_air = at_5cm.parameter("warm_slope");
  std::vector<double> response;
  double held = 0.0;
  for (Day day = span.begin(); day < span.end(); day += Days{1}) {
    const bool guessed =
        daily.air_min.quality(day) == Quality::past_year || daily.air_max.quality(day) == Quality::past_year;
    held += gain * ((guessed ? 1.0 : 0.0) - held);
    response.push_back(held * share_of_air);
  }
  return response;
}

}  // namespace

Day complete_since(const SiteWeather& site) {
  Day first = site.outlook_start;
  while (site.daily.air_min.at(first - Days{1}) && site.daily.air_max.at(first - Days{1})) first -= Days{1};
  return first;
}

Scenarios::Scenarios(const SiteWeather& site, const soil::SoilModels& models, const FutureRules& rules,
                     const SiteSoil& soil, DayRange span, const StratifiedDraws& draws, std::uint64_t seed)
    : span_{span},
      futures_{possible_futures(site.daily, site.place, site.outlook_start, span.end(), rules, seed)},
      error_{soil.at_5cm.error, site.place.hemisphere(), span, soil.at_5cm.readings},
      random_{seed} {
  const soil::SoilChoice choice = models.choose(site.place);
  const Estimators estimators{choice, site.place};
  // What is known was run once, from the start of the record; every future continues a copy.
  const auto& members = site.forecast_members;
  const Day branch_day = members.empty() ? site.outlook_start : *site.first_forecast;
  const WeatherTrace known = known_trace(site, soil, span, branch_day);
  const soil::SoilState branch_state = members.empty() ? soil.at_5cm.state.value_or(soil::SoilState{})
                                                       : state_at(site, estimators, branch_day);
  for (const auto& [future, member] : pairs(futures_.all.size(), members.size())) {
    WeatherTrace trace = known;
    WeatherTrace before_span;  // the memories run through these days, the course begins with the span
    soil::SoilState state = branch_state;
    const auto add = [&](Day day, Temperature low, Temperature high, Rain rain) {
      append(span.contains(day) ? trace : before_span, estimators, state, day, site.change.low_on(day, low),
             high, site.change.rain_on(day, rain), site.soil_offset);
    };
    for (Day day = branch_day; day < site.outlook_start; day += Days{1}) {
      const weather::DailyWeather& way = members[member];
      add(day, *way.air_min.at(day), *way.air_max.at(day), way.rain.at(day).value_or(Rain::unknown()));
    }
    const Future& then = futures_.all[future];
    for (std::size_t i = 0; i < then.air_min.size(); ++i)
      add(site.outlook_start + Days{static_cast<int>(i)}, then.air_min[i], then.air_max[i], then.rain[i]);
    traces_.push_back(std::move(trace));
  }
  guess_response_ = response_to_guesses(site.daily, span, choice.pair.shallow);
  for (const double draw : draws.of("guessed air")) {
    guess_error_.push_back(
        TemperatureDelta::from_kelvin(rules.guessed_air_sd_kelvin * normal_quantile(draw)));
  }
  for (const double draw : draws.of("future")) {
    future_of_.push_back(static_cast<std::size_t>(draw * static_cast<double>(traces_.size())));
  }
  for (Day day = span.begin(); day < span.end(); day += Days{1}) {
    if (soil.at_5cm.daily.quality(day) == Quality::measured)
      measured_.emplace_back(index(day), *soil.at_5cm.daily.at(day));
  }
}

MemberSoil Scenarios::soil_of(int member) const {
  const WeatherTrace& trace = weather_of(member);
  const std::vector<TemperatureDelta> error = error_.draw(random_, static_cast<std::uint64_t>(member));
  const TemperatureDelta guess_error = guess_error_[static_cast<std::size_t>(member)];
  MemberSoil soil;
  const std::size_t days = trace.soil_estimate.size();
  soil.at_5cm.resize(days);
  soil.shallow.resize(days);
  for (std::size_t i = 0; i < days; ++i)
    soil.at_5cm[i] = trace.soil_estimate[i] - error[i] + guess_error * guess_response_[i];
  for (const auto& [day, measured] : measured_) soil.at_5cm[day] = measured;  // it wins over the estimate
  for (std::size_t i = 0; i < days; ++i) soil.shallow[i] = soil.at_5cm[i] + trace.shallow_minus_5cm[i];
  return soil;
}

}  // namespace soilclock::advice
