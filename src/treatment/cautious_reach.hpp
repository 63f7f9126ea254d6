// SPDX-License-Identifier: MIT
// The reach of every week and kind over many possible seasons and treatments, and the week that still reaches
// most when things go badly. Plain reach is too flat to name a week; its tenth percentile is not.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "core/band.hpp"
#include "core/dates.hpp"
#include "treatment/logged.hpp"
#include "treatment/reach.hpp"
#include "treatment/reach_settings.hpp"

namespace soilclock::treatment {

/// One possible season with one possible treatment.
struct Member {
  SeasonCohorts cohorts;
  MemberDraw draw;
  double weight = 1.0;  ///< relative, not negative
};

/// One week; treatments are taken to be on its Monday, in the first week asked about on its first day asked
/// about. Points are percent of the season's seedlings, 0..95.
struct WeekReach {
  Day week_of{};
  std::array<Band<double>, kind_count> points;
  Band<Fraction> emerged;                  ///< up on the day, whatever was done to them
  Fraction soon;                           ///< middle share coming up within the look-ahead
  Losses mean_losses;                      ///< means over the members, shares of the season
  std::optional<double> logged_dose_left;  ///< middle; nothing when no residual was logged by then
  const Band<double>& of(Kind kind) const { return points[static_cast<std::size_t>(kind)]; }
};

/// What costs reach on one side of a window.
enum class Limit {
  none,            ///< the weeks asked about end before the window does
  residual_spent,  ///< earlier: the dose decays before the plants come
  residual_alone,  ///< earlier: too few are up, the residual has to do it alone
  plants_to_come,  ///< earlier: what is not up cannot be reached without a residual
  plants_up,       ///< later: what is up cannot be reached without a foliar part
  stage,           ///< later: plants outgrow the foliar part
  cold             ///< later: days get too cold for the foliar part
};

/// "residual spent", "residual alone", ...; "" for none.
std::string_view name(Limit limit);

struct BestWeek {
  Kind kind = Kind::pre_post;
  Day week_of{};
  Band<double> points;
  Day window_first{};  ///< Monday of the first and the last week within the window's points
  Day window_last{};
  /// Low points lost by waiting one, two, three weeks, not below 0; nothing where the weeks asked about end.
  std::array<std::optional<double>, 3> cost_of_waiting;
  Limit early = Limit::none;
  Limit late = Limit::none;
};

struct CautiousReach {
  std::vector<WeekReach> weeks;
  std::array<std::optional<BestWeek>, kind_count> best;  ///< nothing where no week reaches as much as a tie
  const std::optional<BestWeek>& best_of(Kind kind) const { return best[static_cast<std::size_t>(kind)]; }
};

/// Reach of the first day of `weeks` (for the week it lies in) and of all Mondays after it that lie in the
/// season. Low, middle and high are the weighted 10th, 50th and 90th percentile over the members.
/// Applications logged take their share of the seedlings first; they do not change `emerged`. No members or
/// no weeks give an empty answer.
CautiousReach cautious_reach(std::span<const Member> members, DayRange weeks,
                             std::span<const LoggedApplication> logged, const ReachRules& rules,
                             const ReachSettings& settings);

/// Best week of a kind among weeks in order: highest low, earlier on a tie; see BestWeek.
std::optional<BestWeek> best_week(std::span<const WeekReach> weeks, Kind kind, const ReachSettings& settings);

/// Quantile of values with weights: the smallest value at or below which at least that share of the weight
/// lies. `order` is scratch space. Empty input gives not-a-number.
double weighted_quantile(std::span<const double> values, std::span<const double> weights, double share,
                         std::vector<std::size_t>& order);

}  // namespace soilclock::treatment
