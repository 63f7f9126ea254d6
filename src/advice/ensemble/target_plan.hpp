// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "advice/ensemble/member_weights.hpp"
#include "advice/ensemble/site_climate.hpp"
#include "core/problem.hpp"

namespace soilclock::advice {

/// A target's members with their weights, or the reason why it cannot be run.
struct PlannedTarget {
  const emergence::Target* target = nullptr;
  TargetJob job;
  std::optional<SiteClimate> climate;
  std::vector<Remark> remarks;
  std::optional<Problem> refusal;
};

/// Weighs the members of a target at a site and season and leaves out those whose weather the record lacks. A
/// target without a published curve, or a record with a hole where every member needs it, is refused with
/// what is lacking.
PlannedTarget plan_target(const Catalogue& catalogue, const emergence::Target& target, const Season& season,
                          const SiteWeather& site, const SiteSoil& soil, const Scenarios& scenarios);

}  // namespace soilclock::advice
