// SPDX-License-Identifier: MIT
// What treatments already given this season have done to the season's seedlings.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/dates.hpp"
#include "treatment/reach.hpp"
#include "treatment/reach_settings.hpp"

namespace soilclock::treatment {

/// A treatment somebody noted.
struct LoggedApplication {
  Day day{};
  std::vector<int> groups;  ///< HRAC/WSSA numbers; may be empty where nobody noted them
  Kind kind = Kind::pre;
  std::optional<double> residual_weeks;  ///< at 20 C; nothing: as uncertain as any (drawn)
  std::optional<FoliarPartner> partner;  ///< nothing: as uncertain as any (drawn)
};

/// Each day's share of seedlings left by the applications logged in this season, as one member sees them;
/// applications outside the season change nothing. The kill of several applications is independent.
std::vector<double> surviving_shares(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged,
                                     const MemberDraw& draw, const ReachRules& rules);

/// Dose left of the residuals logged in one possible season.
class LoggedDoses {
 public:
  LoggedDoses(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged, const MemberDraw& draw,
              const ReachRules& rules);

  /// Dose left on a day of all residuals logged up to it, added up; nothing when none was, or outside the
  /// season. A full dose is 1; below ReachRules::residual.spent_below the residual is spent.
  std::optional<double> left_on(Day day) const;

 private:
  struct Dose {
    std::size_t applied;  // day index in the season
    ResidualClock clock;
  };
  DayRange season_;
  std::vector<Dose> doses_;
};

}  // namespace soilclock::treatment
