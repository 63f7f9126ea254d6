// SPDX-License-Identifier: MIT
// Whether counts look like anything the ensemble could have brought forth.
#pragma once

#include <cstdint>
#include <vector>

#include "advice/scouting/plot_counts.hpp"
#include "core/random.hpp"

namespace soilclock::advice {

/// Two comparisons, in logarithms; low is surprising.
struct CheckStatistics {
  double curve = 0.0;  ///< the ensemble's evidence over that of a mean of its own for each visit
  double plots =
      0.0;  ///< evidence of plain plots over that of plots of which a share holds none, whatever the course
};

/// Evidence of counts when every visit has a mean of its own, whatever the season; k is common to all.
class FreeMeans {
 public:
  FreeMeans(std::span<const PlotGroup> groups, const PriorGrid<k_grid_size>& patchiness,
            const CountCheckRule& rule);
  double plain(std::span<const GroupSums> sums) const;
  /// When a share of the plots, the same on all visits and unknown, holds none for another reason than
  /// chance.
  double zero_inflated(std::span<const GroupSums> sums) const;

 private:
  /// What a plot, a plant, a plot with plants and one without add to the logarithm.
  struct Term {
    double plant, plot, filled, empty;
  };
  static constexpr std::size_t density_steps = 40;
  double evidence(std::span<const GroupSums> sums, std::size_t empty_share) const;

  std::size_t zero_inflated_shares_;
  std::array<double, k_grid_size> log_probability_of_k_;
  std::vector<std::size_t> visit_of_;  // by group
  std::size_t visits_ = 0;
  std::vector<Term> terms_;  // by share of empty plots (none first), k, density and group
};

/// Which of the two comparisons fell out lower than in nearly all true series.
struct CheckFlags {
  bool curve = false;
  bool plots = false;
};

/// Judges series of counts against series simulated from the ensemble itself in the same plots. It sees
/// standing counts that fall or jump, and plots of which about half hold none while the others hold many. It
/// cannot tell a flat series from a late wave that has hardly begun, nor from one that is over: the total is
/// unknown.
class PosteriorCheck {
 public:
  /// `groups` say the plots (their counts are not looked at), `shares` the share up of each member by visit,
  /// not empty. `priors` and `rule` must outlive this.
  PosteriorCheck(std::vector<PlotGroup> groups, const std::vector<std::vector<double>>& shares,
                 const CountPriors& priors, const CountCheckRule& rule, RandomField random);
  /// Counts in the plots of the test, group by group.
  CheckFlags judged(std::span<const PlotGroup> groups) const;

 private:
  CheckStatistics of(std::span<const PlotGroup> groups) const;

  const CountPriors* priors_;
  const CountCheckRule* rule_;
  std::vector<PlotGroup> groups_;
  RandomField random_;
  FreeMeans free_means_;
  std::vector<CurveMeans> curves_;
  std::vector<std::vector<double>> others_;
  mutable std::vector<CheckStatistics> simulated_;  // as many as were needed so far
};

}  // namespace soilclock::advice
