// SPDX-License-Identifier: MIT
// What turf, ground and weather of a week do to the two parts of a treatment, the residual and the foliar
// one: stop them or call for a caution. Cheap enough to be asked for every member and week.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/dates.hpp"
#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/rain.hpp"
#include "core/temperature.hpp"
#include "treatment/actives.hpp"
#include "treatment/turf_state.hpp"

namespace soilclock::treatment {

enum class GateReason {
  frozen_ground,
  snow_or_frost_on_ground,
  green_up,
  overseeding,
  cold_air,
  dormant_turf,
  root_caution
};

/// "frozen-ground", "snow-or-frost-on-ground", "green-up", "overseeding", "cold-air", "dormant-turf",
/// "root-caution".
std::string_view name(GateReason reason);

/// One reason and the parts it is about.
struct Gate {
  GateReason reason = GateReason::frozen_ground;
  bool stops = false;  ///< else a caution only
  bool residual = false;
  bool foliar = false;
  std::optional<Day> until;  ///< first day it no longer holds, where that is known
};

/// When and where a residual is kept off a slope to a green.
struct SlopeRules {
  double buffer_m = 0.0;       ///< left out on the slope
  double path_buffer_m = 0.0;  ///< left out on traffic paths
  Rain rain;                   ///< from so much within `rain_days` on
  int rain_days = 0;
};

/// models/treatment/gates.json; `cold_air` comes from the spray rules, `spring` from those of the turf.
struct GateRules {
  Temperature cold_air;  ///< mean maximum below which foliar work stops
  int cold_air_days = 0;
  Temperature frozen_soil;
  Temperature snow_maximum;
  double residual_before_seeding_weeks = 0.0;  ///< for a plan whose actives are not known
  double residual_after_seeding_weeks = 0.0;
  int seeding_near_weeks = 0;  ///< overseeding this far ahead or back is spoken of first
  Temperature root_soil_from;
  Temperature root_soil_to;
  std::vector<int> root_groups;
  TurfSpring spring;  ///< in which roots of bermudagrass are easily harmed
  SlopeRules slope;
};

/// Reads models/treatment/gates.json, all but `cold_air` and `spring`; a request problem names the place of
/// what is wrong.
Result<GateRules> read_gate_rules(std::string_view json, const std::string& file);

/// Soil and air from a treated day on; unknown where no day is known, and unknown gates nothing.
struct WeekWeather {
  Temperature soil_mean;           ///< of seven days
  Temperature air_max_mean;        ///< mean maximum of seven days
  Temperature air_max_first_days;  ///< mean maximum of GateRules::cold_air_days
};

/// Mean of the known among so many days from index `day` on; unknown where there are none.
Temperature mean_of_known(std::span<const Temperature> values, std::size_t day, std::size_t days);

/// The days from index `day` on of one member's (or the known) daily soil means and air maxima, as far as the
/// spans reach; unknown days are left out.
WeekWeather week_weather(std::span<const Temperature> soil, std::span<const Temperature> air_max,
                         std::size_t day, const GateRules& rules);

/// A week to be judged.
struct WeekConditions {
  Day day{};  ///< the treated day
  Hemisphere hemisphere = Hemisphere::north;
  std::optional<TurfSpecies> species;
  std::optional<TurfState> turf;   ///< on that day
  std::optional<Day> overseed_on;  ///< past or to come
  WeekWeather weather;
};

/// What is known of the treatment itself.
struct PlannedResidual {
  std::optional<double> seeding_weeks;  ///< from spraying to seed; nothing: not known, the rules' own counts
  std::span<const int> groups;          ///< HRAC/WSSA numbers of the residual actives; empty: not known
};

/// The longest of the shortest seeding intervals of the residual actives named, in weeks; nothing when none
/// is known.
std::optional<double> seeding_weeks_of(std::span<const PlanEntry> entries);

/// All gates of a week, those that stop first. Green-up (breaking or greening) stops foliar parts and
/// likely dormant turf asks for a look; neither acts on cool-season turf. Cold air stops foliar parts, frozen
/// or snow-covered ground stops everything. A residual is stopped from its seeding interval before an
/// overseeding to `residual_after_seeding_weeks` after it (not one that seed tolerates: an interval of 0),
/// with a caution for foliar parts. Groups that slow roots are a caution on bermudagrass in spring soil.
std::vector<Gate> gates(const WeekConditions& week, const GateRules& rules,
                        const PlannedResidual& residual = {});

/// A short clause for people, without capital and full stop: "turf is greening up".
std::string sentence(const Gate& gate, const GateRules& rules);

}  // namespace soilclock::treatment
