// SPDX-License-Identifier: MIT
// Seed that is to grow and greens below a slope: two places where a treatment does harm however well it is
// timed.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/dates.hpp"
#include "core/rain.hpp"
#include "core/remark.hpp"
#include "core/series.hpp"
#include "treatment/actives.hpp"
#include "treatment/gates.hpp"

namespace soilclock::treatment {

/// How an application sits with a seeding date.
enum class SeedingRisk {
  hard,  ///< nearer than the least interval, or into a stand already seeded
  ask,   ///< within the span, or the interval is not known: the label decides
};

struct SeedingWarning {
  std::string entry;  ///< as in the plan
  SeedingRisk risk = SeedingRisk::ask;
  double weeks_between = 0.0;  ///< application to seeding; negative when seeded before
  std::optional<ParameterSpan> interval;
  std::string text;  ///< one plain sentence
};

/// Warnings for seeding, overseeding or sprigging on `seeded` after (or before) an application. A bare group
/// is judged by the longest interval among its actives, one whose interval is not known asks for as long as
/// the longest of all. Entries far enough away give nothing. A stand seeded less than `stand_weeks`
/// (GateRules::residual_after_seeding_weeks) before the application is a hard warning for everything but
/// actives of interval 0. Whatever the score of a plan, a hard warning stands.
std::vector<SeedingWarning> seeding_warnings(std::span<const PlanEntry> entries, Day applied, Day seeded,
                                             const Actives& actives, double stand_weeks);

/// A caution when water may carry a residual down a slope onto a green: much rain expected from the day on,
/// or soil already saturated. Unknown rain counts as none expected, and the text says so. `us_units`: of the
/// sentence.
std::optional<Remark> slope_caution(bool slope_to_green, const DailySeries<Rain>& rain, Day day,
                                    bool saturated, const SlopeRules& rules, bool us_units = false);

}  // namespace soilclock::treatment
