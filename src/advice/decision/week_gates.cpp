// SPDX-License-Identifier: MIT
#include "advice/decision/week_gates.hpp"

#include <algorithm>

#include "emergence/season_drivers.hpp"
#include "treatment/green_up.hpp"

namespace soilclock::advice {

namespace {

using treatment::Gate;

bool same(const Gate& a, const Gate& b) {
  return a.reason == b.reason && a.stops == b.stops && a.residual == b.residual && a.foliar == b.foliar;
}

/// Gates that come and go with the weather; the others are states that last.
bool of_weather(const Gate& gate) {
  return gate.reason == treatment::GateReason::cold_air ||
         gate.reason == treatment::GateReason::frozen_ground ||
         gate.reason == treatment::GateReason::snow_or_frost_on_ground;
}

/// A gate of the weather stops a week only when it stops every day of it: drops those that are not there on a
/// further day.
void keep_weather_gates_of(std::span<const Gate> of_day, std::vector<Gate>& found) {
  std::erase_if(found, [&](const Gate& gate) {
    return of_weather(gate) &&
           std::none_of(of_day.begin(), of_day.end(), [&](const Gate& other) { return same(gate, other); });
  });
}

/// How many members have each gate in one week.
class Tally {
 public:
  void add(std::span<const Gate> gates) {
    ++members_;
    if (gates.empty()) return;
    for (const Gate& gate : gates) {
      const auto known = std::find_if(counts_.begin(), counts_.end(),
                                      [&](const auto& count) { return same(count.first, gate); });
      if (known == counts_.end())
        counts_.emplace_back(gate, 1);
      else
        ++known->second;
    }
    count_stops(gates, true, weather_stops_);
    count_stops(gates, false, lasting_stops_);
  }

  /// A part is stopped when a lasting gate holds in more than one share of the members, or one of the weather
  /// in more than another. Members may be stopped for different reasons; then the most common is named.
  WeekGates summed_up(double lasting_share, double weather_share) {
    const auto more = [&](int count, double share) { return count > share * members_; };
    std::stable_sort(counts_.begin(), counts_.end(), [](const auto& a, const auto& b) {
      return a.first.stops != b.first.stops ? a.first.stops : a.second > b.second;
    });
    WeekGates week;
    week.residual_stopped =
        more(lasting_stops_.residual, lasting_share) || more(weather_stops_.residual, weather_share);
    week.foliar_stopped =
        more(lasting_stops_.foliar, lasting_share) || more(weather_stops_.foliar, weather_share);
    for (const auto& [gate, count] : counts_) {
      if (more(count, of_weather(gate) ? weather_share : lasting_share)) week.gates.push_back(gate);
    }
    const bool stopped = week.residual_stopped || week.foliar_stopped;
    const bool named = !week.gates.empty() && week.gates.front().stops;
    if (stopped && !named) week.gates.insert(week.gates.begin(), counts_.front().first);
    return week;
  }

 private:
  struct Stops {
    int residual = 0;
    int foliar = 0;
  };

  static void count_stops(std::span<const Gate> gates, bool weather, Stops& stops) {
    const auto stopped = [&](bool Gate::*part) {
      return std::any_of(gates.begin(), gates.end(), [&](const Gate& gate) {
        return gate.stops && gate.*part && of_weather(gate) == weather;
      });
    };
    stops.residual += stopped(&Gate::residual) ? 1 : 0;
    stops.foliar += stopped(&Gate::foliar) ? 1 : 0;
  }

  std::vector<std::pair<Gate, int>> counts_;
  Stops weather_stops_;
  Stops lasting_stops_;
  int members_ = 0;
};

/// The turf of one member on a day: as it is this morning, then as its soil has it.
std::optional<treatment::TurfState> turf_on(Day day, Day on, const GateFacts& facts, DayRange green_up) {
  if (!facts.turf) return std::nullopt;
  if (day == on) return facts.turf->state;
  if (green_up.contains(day)) return treatment::TurfState::greening;
  if (day < green_up.begin() || green_up.empty()) return facts.turf->state;
  return treatment::TurfState::green;
}

/// The air from each day of the season on, by course of the weather.
std::vector<std::vector<treatment::WeekWeather>> air_of_weeks(const Scenarios& scenarios,
                                                              const treatment::GateRules& rules) {
  std::vector<std::vector<treatment::WeekWeather>> air;
  for (const WeatherTrace& trace : scenarios.traces()) {
    const std::span<const Temperature> air_max =
        std::span{trace.air_max}.subspan(static_cast<std::size_t>(emergence::lead_in_days));
    std::vector<treatment::WeekWeather>& days = air.emplace_back();
    for (std::size_t day = 0; day < air_max.size(); ++day)
      days.push_back(treatment::week_weather({}, air_max, day, rules));
  }
  return air;
}

}  // namespace

std::vector<WeekGates> gates_of_weeks(const TargetRun& run, const SeasonRuns& runs,
                                      const Scenarios& scenarios, const Catalogue& catalogue,
                                      std::span<const Day> treated, Day on, const GateFacts& facts) {
  std::vector<Tally> tallies(treated.size());
  const Hemisphere hemisphere = run.season.hemisphere;
  const treatment::PlannedResidual residual{facts.seeding_weeks, facts.residual_groups};
  const DayRange season = run.season.days();
  const treatment::GreenUp turf{season, hemisphere, catalogue.turf};
  const std::vector<std::vector<treatment::WeekWeather>> air = air_of_weeks(scenarios, catalogue.gates);
  for (const TargetMember& member : run.members) {
    const std::vector<Temperature>& soil = runs.soil[member.scenario];
    const std::vector<treatment::WeekWeather>& weather =
        air[scenarios.trace_of(static_cast<int>(member.scenario))];
    DayRange green_up;
    if (facts.turf) green_up = turf.in(soil, treatment::KnownTurf{facts.turf->state, on});
    for (std::size_t week = 0; week < treated.size(); ++week) {
      const Day day = treated[week];
      if (!season.contains(day)) continue;
      treatment::WeekConditions conditions{
          day, hemisphere, facts.species, turf_on(day, on, facts, green_up), facts.overseed_on, {}};
      std::vector<Gate> found;
      const Day next_week = std::min(monday_of(day) + Days{7}, season.end());
      for (Day spray = day; spray < next_week; spray += Days{1}) {
        const auto index = static_cast<std::size_t>((spray - season.begin()).count());
        conditions.weather = weather[index];
        conditions.weather.soil_mean = treatment::mean_of_known(soil, index, week_days);
        std::vector<Gate> of_day = treatment::gates(conditions, catalogue.gates, residual);
        if (spray == day)
          found = std::move(of_day);
        else
          keep_weather_gates_of(of_day, found);
        if (std::none_of(found.begin(), found.end(), of_weather)) break;
      }
      tallies[week].add(found);
    }
  }
  const DecisionRules& rules = catalogue.practice.decision;
  std::vector<WeekGates> weeks;
  for (std::size_t week = 0; week < treated.size(); ++week) {
    const bool ahead = monday_of(treated[week]) > monday_of(on);
    weeks.push_back(
        tallies[week].summed_up(rules.gated_share, ahead ? rules.gated_share_ahead : rules.gated_share));
  }
  return weeks;
}

void apply(const WeekGates& gates, TreatmentWeek& week) {
  for (const treatment::Kind kind : treatment::all_kinds) {
    const bool stopped = (gates.residual_stopped && treatment::has_residual(kind)) ||
                         (gates.foliar_stopped && treatment::has_foliar(kind));
    if (stopped) week.of(kind).allowed = false;
  }
}

}  // namespace soilclock::advice
