// SPDX-License-Identifier: MIT
// What treatments already given this season have done to the season's seedlings.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/dates.hpp"
#include "treatment/expected_control.hpp"

namespace soilclock::treatment {

/// A treatment somebody noted, as one member has it.
struct LoggedApplication {
  Day day{};
  Kind kind = Kind::pre;
  DrawnTreatment drawn;
  double share_of_dose = 1.0;  ///< one half for each part of a split application
  /// Days until water moved it in; nothing: never activated. See days_until_activated.
  std::optional<int> activation_delay_days = 0;
};

/// Residual doses logged in one possible season. Doses of one group add up; groups act independently.
class LoggedDoses {
 public:
  LoggedDoses(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged,
              const ResidualRule& rule);

  /// Dose left on a day of the residuals logged up to it, of the group that has most left; nothing when none
  /// was logged, or outside the season. A full dose is 1; below ResidualRule::spent_below a residual is
  /// spent. One never watered in counts as a dose of none.
  std::optional<double> left_on(Day day) const;

  /// Share of the seedlings coming up on a day of the season (by day index) that the doses stop: applications
  /// of earlier days, once activated.
  double stopped_on(std::size_t day) const;

 private:
  struct Dose {
    int group;
    std::size_t applied;  // day index in the season
    double share;         // none when never activated
    std::size_t delay;
    double works;
    ResidualClock clock;
  };
  DayRange season_;
  const ResidualRule& rule_;
  std::vector<Dose> doses_;  // by group
};

/// Each day's share of seedlings left by the applications logged in this season, as one member sees them;
/// applications outside the season change nothing. Kills of several applications are independent.
std::vector<double> surviving_shares(const SeasonCohorts& cohorts, std::span<const LoggedApplication> logged,
                                     const GrassControl& grass, const ResidualRule& rule);

}  // namespace soilclock::treatment
