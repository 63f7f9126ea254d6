// SPDX-License-Identifier: MIT
// Reach: the share of the season's own seedlings that a treatment on a given day kills, those up by its
// foliar part and those still to come by its residual part.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "core/dates.hpp"
#include "core/fraction.hpp"
#include "core/temperature.hpp"
#include "treatment/kill_matrix.hpp"
#include "treatment/residual.hpp"

namespace soilclock::treatment {

enum class Kind : std::size_t { pre, pre_post, post };
inline constexpr std::size_t kind_count = 3;
inline constexpr std::array<Kind, kind_count> all_kinds{Kind::pre, Kind::pre_post, Kind::post};

/// "pre", "pre+post", "post".
std::string_view name(Kind kind);

/// One possible season, day by day: all spans have one value a day from `first` and the same length. The
/// values stay with the caller, who keeps them alive. Temperatures must be complete; an unknown one makes the
/// reach not-a-number.
struct SeasonCohorts {
  Day first{};
  std::span<const double>
      emerging_share;  ///< share of the season's total coming up on the day; sums to 1 at most
  std::span<const double> thermal_age_c_days;  ///< degree-days above 0 C summed to the day; never falling
  std::span<const Temperature> soil;           ///< daily mean
  std::span<const Temperature> air_max;
  double phyllochron_c_days = 75.0;  ///< degree-days above 0 C a leaf takes
};

/// A second part of a split application.
struct SecondDose {
  int days_later = 0;
  double share_of_dose = 0.5;
};

/// Below this many weeks an active counts as having no residual.
inline constexpr double least_residual_weeks = 1.0;

struct Treatment {
  Kind kind = Kind::pre_post;
  FoliarPartner partner = FoliarPartner::contact;
  double residual_weeks = 12.0;  ///< at 20 C; see least_residual_weeks
  Fraction foliar_failure;    ///< share of the plants up that the foliar part leaves beyond the kill matrix
  Fraction residual_failure;  ///< share of the plants to come that the residual leaves beyond its decay
  double first_dose = 1.0;    ///< share of a full dose
  std::optional<SecondDose> second_dose;
  /// Days until water has moved it in: plants coming up before are missed. Nothing: never activated.
  std::optional<int> activation_delay_days = 0;
};

/// The tables a reach is computed with.
struct ReachRules {
  KillMatrix kill;
  ResidualRule residual;
};

/// Shares of the season's seedlings, 0..cap. Where the cap bites, both parts are reduced in proportion.
struct Reach {
  double total = 0.0;
  double foliar = 0.0;    ///< plants that are up on the day
  double residual = 0.0;  ///< plants that would come up later
};

/// Where the rest of the season's seedlings is lost: why a week is not better than it is. Shares of the
/// season.
struct Losses {
  double up = 0.0;               ///< plants up on the day
  double to_come = 0.0;          ///< plants coming up after it
  double stage = 0.0;            ///< up, and left because older than the first stage class
  double cold = 0.0;             ///< up, and left because the days after are cold
  double residual_spent = 0.0;   ///< to come, and left because the dose has decayed or is not yet active
  double residual_failed = 0.0;  ///< to come, and left by the residual's failure share
};

/// Reach of one treatment in one possible season for any day and all three kinds.
class ReachTable {
 public:
  /// `treatment.kind` is not used. Days before the season's first day or after its last have no reach.
  ReachTable(const SeasonCohorts& cohorts, const Treatment& treatment, const ReachRules& rules);

  struct Row {
    std::array<Reach, kind_count> reach;
    Losses losses;
    const Reach& of(Kind kind) const { return reach[static_cast<std::size_t>(kind)]; }
  };
  /// All kinds on one day; zero outside the season. Cost: one pass over the days to come.
  Row on(Day day) const;

  /// Share of each day's seedlings that the treatment of a kind on a day kills (uncapped), by day index.
  std::vector<double> killed_by_cohort(Kind kind, Day day) const;

 private:
  struct Foliar {
    double up = 0.0;
    double warm = 0.0;   // killed if the days were warm
    double ideal = 0.0;  // killed if all were of the first stage as well
    double warmth = 1.0;
  };
  std::optional<std::size_t> index(Day day) const;
  double warmth_on(std::size_t day) const;
  Foliar foliar_on(std::size_t day) const;
  double young_on(std::size_t day) const;
  double dose_factor(std::size_t applied, std::size_t on) const;
  double residual_kill(std::size_t from, std::size_t to, double dose_factor) const;

  SeasonCohorts cohorts_;
  Treatment treatment_;
  const ReachRules* rules_;
  ResidualClock clock_;
  std::vector<double>
      emerged_before_;  // emerged_before_[i]: share up before day i; one more than there are days
};

/// Reach of a treatment of its kind on a day; zero outside the season.
Reach reach(const SeasonCohorts& cohorts, const Treatment& treatment, Day day, const ReachRules& rules);

}  // namespace soilclock::treatment
