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
  double share_of_dose = 1.0;            ///< one half for each part of a split application
  /// Days until water moved it in; nothing: never activated. See days_until_activated.
  std::optional<int> activation_delay_days = 0;
};

/// Residual doses logged in one possible season. Doses of several applications add up.
class LoggedDoses {
 public:
  LoggedDoses(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged, const MemberDraw& draw,
              const ReachRules& rules);

  /// Dose left on a day of all residuals logged up to it; nothing when none was, or outside the season. A
  /// full dose is 1; below ReachRules::residual.spent_below the residual is spent. One never watered in
  /// counts as a dose of none.
  std::optional<double> left_on(Day day) const;

  /// Dose that meets seedlings coming up on a day of the season, by day index: applications of earlier days,
  /// once activated.
  double acting_on(std::size_t day) const;

 private:
  struct Dose {
    std::size_t applied;  // day index in the season
    double share;         // none when never activated
    std::size_t delay;
    ResidualClock clock;
  };
  DayRange season_;
  std::vector<Dose> doses_;
};

/// Each day's share of seedlings left by the applications logged in this season, as one member sees them;
/// applications outside the season change nothing. Foliar kills of several applications are independent,
/// residual doses add up.
std::vector<double> surviving_shares(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged,
                                     const MemberDraw& draw, const ReachRules& rules);

}  // namespace soilclock::treatment
