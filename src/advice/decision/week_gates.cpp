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

/// How many members have each gate in one week.
struct Tally {
  std::vector<std::pair<Gate, int>> counts;
  int residual_stopped = 0;
  int foliar_stopped = 0;

  void add(std::span<const Gate> gates) {
    for (const Gate& gate : gates) {
      const auto known = std::find_if(counts.begin(), counts.end(),
                                      [&](const auto& count) { return same(count.first, gate); });
      if (known == counts.end())
        counts.emplace_back(gate, 1);
      else
        ++known->second;
    }
    const treatment::StoppedParts stopped = treatment::stopped_parts(gates);
    residual_stopped += stopped.residual ? 1 : 0;
    foliar_stopped += stopped.foliar ? 1 : 0;
  }

  /// Members may be stopped for different reasons; then none of them has the share, and the most common is
  /// named.
  WeekGates summed_up(double more_than) {
    std::stable_sort(counts.begin(), counts.end(), [](const auto& a, const auto& b) {
      return a.first.stops != b.first.stops ? a.first.stops : a.second > b.second;
    });
    WeekGates week{{}, residual_stopped > more_than, foliar_stopped > more_than};
    for (const auto& [gate, count] : counts) {
      if (count > more_than) week.gates.push_back(gate);
    }
    const bool stopped = week.residual_stopped || week.foliar_stopped;
    const bool named = !week.gates.empty() && week.gates.front().stops;
    if (stopped && !named) week.gates.insert(week.gates.begin(), counts.front().first);
    return week;
  }
};

/// The turf of one member on a day: as it is this morning, then as its soil has it.
std::optional<treatment::TurfState> turf_on(Day day, Day on, const GateFacts& facts, DayRange green_up) {
  if (!facts.turf) return std::nullopt;
  if (day == on) return facts.turf->state;
  if (green_up.contains(day)) return treatment::TurfState::greening;
  if (day < green_up.begin() || green_up.empty()) return facts.turf->state;
  return treatment::TurfState::green;
}

}  // namespace

std::vector<WeekGates> gates_of_weeks(const TargetRun& run, const SeasonRuns& runs, const Scenarios& scenarios,
                                      const Catalogue& catalogue, std::span<const Day> treated, Day on,
                                      const GateFacts& facts) {
  std::vector<Tally> tallies(treated.size());
  const Hemisphere hemisphere = run.season.hemisphere;
  const treatment::PlannedResidual residual{facts.seeding_weeks, facts.residual_groups};
  for (const TargetMember& member : run.members) {
    const std::vector<Temperature>& soil = runs.soil[member.scenario];
    const std::span<const Temperature> air_max =
        std::span{scenarios.weather_of(static_cast<int>(member.scenario)).air_max}.subspan(
            static_cast<std::size_t>(emergence::lead_in_days));
    DayRange green_up;
    if (facts.turf) {
      green_up = treatment::green_up_days(soil, run.season.first, hemisphere, catalogue.turf,
                                          treatment::KnownTurf{facts.turf->state, on});
    }
    for (std::size_t week = 0; week < treated.size(); ++week) {
      const Day day = treated[week];
      if (!run.season.days().contains(day)) continue;
      const auto index = static_cast<std::size_t>(run.season.day_of_season(day));
      const treatment::WeekConditions conditions{
          day,
          hemisphere,
          facts.species,
          turf_on(day, on, facts, green_up),
          facts.overseed_on,
          treatment::week_weather(soil, air_max, index, catalogue.gates)};
      tallies[week].add(treatment::gates(conditions, catalogue.gates, residual));
    }
  }
  const double more_than =
      catalogue.practice.decision.gated_share * static_cast<double>(run.members.size());
  std::vector<WeekGates> weeks;
  for (Tally& tally : tallies) weeks.push_back(tally.summed_up(more_than));
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
