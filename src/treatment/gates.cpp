// SPDX-License-Identifier: MIT
#include "treatment/gates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::treatment {

namespace {

Days whole_days(double weeks) {
  return Days{static_cast<int>(std::ceil(weeks * static_cast<double>(week_days)))};
}

void add_ground(std::vector<Gate>& found, const WeekConditions& week, const GateRules& rules) {
  if (week.weather.soil_mean <= rules.frozen_soil) {
    found.push_back({GateReason::frozen_ground, true, true, true, {}});
  } else if (week.weather.air_max_mean <= rules.snow_maximum) {
    found.push_back({GateReason::snow_or_frost_on_ground, true, true, true, {}});
  }
}

bool warm_season(const WeekConditions& week) {
  return week.species && *week.species != TurfSpecies::cool_season;
}

void add_green_up(std::vector<Gate>& found, const WeekConditions& week) {
  if (!warm_season(week)) return;
  if (week.turf == TurfState::breaking || week.turf == TurfState::greening) {
    found.push_back({GateReason::green_up, true, false, true, {}});
  }
}

/// The residual's stop; what it means for foliar parts is a caution, added later.
void add_overseeding_stop(std::vector<Gate>& found, const WeekConditions& week, const GateRules& rules,
                          std::optional<double> interval) {
  if (!week.overseed_on || interval == 0.0) return;
  const Day from = *week.overseed_on - whole_days(interval.value_or(rules.residual_before_seeding_weeks));
  const Day until = *week.overseed_on + whole_days(rules.residual_after_seeding_weeks);
  if (DayRange{from, until}.contains(week.day)) {
    found.push_back({GateReason::overseeding, true, true, false, until});
  }
}

void add_overseeding_caution(std::vector<Gate>& found, const WeekConditions& week, const GateRules& rules) {
  if (!week.overseed_on) return;
  const Day from = *week.overseed_on - whole_days(rules.residual_before_seeding_weeks);
  const Day until = *week.overseed_on + whole_days(rules.residual_after_seeding_weeks);
  if (DayRange{from, until}.contains(week.day)) {
    found.push_back({GateReason::overseeding, false, false, true, until});
  }
}

void add_dormancy(std::vector<Gate>& found, const WeekConditions& week) {
  if (warm_season(week) && week.turf == TurfState::likely_dormant) {
    found.push_back({GateReason::dormant_turf, false, false, true, {}});
  }
}

void add_roots(std::vector<Gate>& found, const WeekConditions& week, const GateRules& rules,
               std::span<const int> groups) {
  if (week.species != TurfSpecies::bermudagrass || !in_turf_spring(week.day, week.hemisphere, rules.spring))
    return;
  const Temperature soil = week.weather.soil_mean;
  if (!(soil >= rules.root_soil_from && soil <= rules.root_soil_to)) return;
  const bool slows_roots = groups.empty() || std::any_of(groups.begin(), groups.end(), [&rules](int group) {
                             return std::find(rules.root_groups.begin(), rules.root_groups.end(), group) !=
                                    rules.root_groups.end();
                           });
  if (slows_roots) found.push_back({GateReason::root_caution, false, true, false, {}});
}

}  // namespace

std::string_view name(GateReason reason) {
  switch (reason) {
    case GateReason::frozen_ground:
      return "frozen-ground";
    case GateReason::snow_or_frost_on_ground:
      return "snow-or-frost-on-ground";
    case GateReason::green_up:
      return "green-up";
    case GateReason::overseeding:
      return "overseeding";
    case GateReason::cold_air:
      return "cold-air";
    case GateReason::dormant_turf:
      return "dormant-turf";
    case GateReason::root_caution:
      break;
  }
  return "root-caution";
}

Temperature mean_of_known(std::span<const Temperature> values, std::size_t day, std::size_t days) {
  double sum = 0.0;
  int known = 0;
  const std::size_t end = std::min(day + days, values.size());
  for (std::size_t i = day; i < end; ++i) {
    if (!values[i].known()) continue;
    sum += values[i].celsius();
    ++known;
  }
  return known > 0 ? Temperature::from_celsius(sum / known) : Temperature::unknown();
}

WeekWeather week_weather(std::span<const Temperature> soil, std::span<const Temperature> air_max,
                         std::size_t day, const GateRules& rules) {
  return {mean_of_known(soil, day, week_days), mean_of_known(air_max, day, week_days),
          mean_of_known(air_max, day, static_cast<std::size_t>(rules.cold_air_days))};
}

std::optional<double> seeding_weeks_of(std::span<const PlanEntry> entries) {
  std::optional<double> longest;
  for (const PlanEntry& entry : entries) {
    if (entry.active == nullptr || !entry.active->to_come || !entry.active->seeding_weeks) continue;
    longest = std::max(longest.value_or(0.0), entry.active->seeding_weeks->least);
  }
  return longest;
}

std::vector<Gate> gates(const WeekConditions& week, const GateRules& rules, const PlannedResidual& residual) {
  std::vector<Gate> found;
  add_ground(found, week, rules);
  add_green_up(found, week);
  add_overseeding_stop(found, week, rules, residual.seeding_weeks);
  if (week.weather.air_max_first_days < rules.cold_air) {
    found.push_back({GateReason::cold_air, true, false, true, {}});
  }
  add_overseeding_caution(found, week, rules);
  add_dormancy(found, week);
  add_roots(found, week, rules, residual.groups);
  return found;
}

std::string sentence(const Gate& gate, const GateRules& rules) {
  switch (gate.reason) {
    case GateReason::frozen_ground:
      return "ground is frozen";
    case GateReason::snow_or_frost_on_ground:
      return "ground is likely frozen or snow-covered";
    case GateReason::green_up:
      return "turf is greening up";
    case GateReason::overseeding:
      return gate.stops ? "a residual would kill the overseeding"
                        : "seed is about to go in or the stand is young: ask the label before a foliar spray";
    case GateReason::cold_air:
      return "days too cold for a foliar spray";
    case GateReason::dormant_turf:
      return "turf is likely dormant: look for green before a foliar spray";
    case GateReason::root_caution:
      break;
  }
  return fmt::format("a residual of group {} can set back bermudagrass roots while soil warms up in spring",
                     fmt::join(rules.root_groups, " or "));
}

Result<GateRules> read_gate_rules(std::string_view json, const std::string& file) {
  return read_json(json, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-gates/1");
    const auto fahrenheit = [&top](std::string_view key) {
      return Temperature::from_fahrenheit(read_parameter(top, key, "F", {0, 100}).value);
    };
    GateRules rules;
    rules.cold_air_days = read_whole(top, "cold_air_days", "d", {1, 14});
    rules.frozen_soil = fahrenheit("frozen_soil");
    rules.snow_maximum = fahrenheit("snow_maximum");
    rules.residual_before_seeding_weeks =
        read_parameter(top, "residual_before_seeding", "weeks", {0, 52}).value;
    rules.residual_after_seeding_weeks =
        read_parameter(top, "residual_after_seeding", "weeks", {0, 52}).value;
    rules.seeding_near_weeks = read_whole(top, "seeding_near", "weeks", {0, 104});
    rules.root_soil_from = fahrenheit("root_soil_from");
    rules.root_soil_to = fahrenheit("root_soil_to");
    if (rules.root_soil_to < rules.root_soil_from) {
      top.object("root_soil_to")
          .refuse("value", "this limit is below root_soil_from", {}, "correct one of the two");
    }
    rules.slope = {read_parameter(top, "slope_buffer", "m", {0, 100}).value,
                   read_parameter(top, "path_buffer", "m", {0, 100}).value,
                   Rain::from_mm(read_parameter(top, "slope_rain", "mm", {0, 200}).value),
                   read_whole(top, "slope_rain_days", "d", {1, 14})};
    const JsonObject groups = top.object("root_groups");
    for (const double group : groups.numbers("groups")) {
      if (group < 1.0 || group != std::floor(group)) {
        groups.refuse("groups", "a group is a whole number", "HRAC/WSSA numbers such as 3");
      }
      rules.root_groups.push_back(static_cast<int>(group));
    }
    (void)read_grounds(groups);
    groups.finish();
    top.finish();
    return rules;
  });
}

}  // namespace soilclock::treatment
