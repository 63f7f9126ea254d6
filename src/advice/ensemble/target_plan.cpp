// SPDX-License-Identifier: MIT
#include "advice/ensemble/target_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace soilclock::advice {

namespace {

Problem hole_problem(const SiteWeather& site, const Season& season,
                     const std::vector<WeightedModel>& left_out) {
  int needed = season.length();
  for (const WeightedModel& member : left_out) needed = std::min(needed, member.model->weather_needed_from);
  const Day from = season.first + Days{needed - 6};
  // The last run of missing days is what stands between the record and an answer.
  const Day hole_end = complete_since(site);
  const auto known = [&](Day day) { return site.daily.air_min.at(day) && site.daily.air_max.at(day); };
  Day hole_begin = hole_end;
  while (hole_begin > from && !known(hole_begin - Days{1})) hole_begin -= Days{1};
  return {Family::data,
          fmt::format("the season's sum has a hole: minimum and maximum are missing from {} to {}",
                      iso(hole_begin), iso(hole_end - Days{1})),
          {},
          {},
          fmt::format("both for every day from {} on", iso(from)),
          "add the missing days, from a neighboring station or with soilclock fetch; no window is given "
          "without them"};
}

}  // namespace

PlannedTarget plan_target(const Catalogue& catalogue, const emergence::Target& target, const Season& season,
                          const SiteWeather& site, const SiteSoil& soil, const Scenarios& scenarios) {
  PlannedTarget plan{&target, {}, {}, {}, {}};
  if (target.members.empty()) {
    plan.refusal = Problem{Family::request,
                           "no emergence curve is published for this target: " + target.no_members_because,
                           {},
                           {},
                           {},
                           "soilclock models " + target.code + " shows what is known"};
    return plan;
  }
  if (target.single_window) {
    plan.climate = site_climate(site, soil, scenarios, season, *target.single_window,
                                cooling_mark(target, catalogue, season), catalogue.futures);
  }
  std::vector<WeightedModel> left_out;
  std::vector<UnusedModel> unused;
  const auto weighted =
      member_weights(target, catalogue, site.place, season, plan.climate ? &*plan.climate : nullptr, unused);
  plan.job = {&target, &catalogue.growth.at(target.growth),
              with_weather_since(weighted, season, complete_since(site), left_out), std::move(unused)};
  if (plan.job.models.empty()) plan.refusal = hole_problem(site, season, left_out);
  for (const WeightedModel& member : left_out) {
    plan.job.unused.push_back({member.model, "it needs weather from before the record begins"});
    plan.remarks.push_back(
        {"model-left-out",
         "Model " + member.model->id + " needs weather from before the record begins and is left out."});
  }
  return plan;
}

}  // namespace soilclock::advice
