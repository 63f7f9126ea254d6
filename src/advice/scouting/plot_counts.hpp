// SPDX-License-Identifier: MIT
// How likely counts of seedlings in plots are when the share of the season's seedlings that is up is given:
// the season's total and the patchiness of the plants are unknown and integrated out.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "advice/data/count_rule.hpp"

namespace soilclock::advice {

/// Plots of one size looked at on one visit.
struct PlotGroup {
  std::size_t visit = 0;  ///< which of the shares belongs to it
  double area_m2 = 0.1;   ///< of one plot, above 0
  std::vector<int> counts;
};

/// Grid over an unknown positive quantity, even in its logarithm, with the prior's probability of each value.
template <std::size_t Size>
struct PriorGrid {
  std::array<double, Size> value{};
  std::array<double, Size> log_value{};
  std::array<double, Size> log_probability{};
};

inline constexpr std::size_t total_grid_size = 36;
inline constexpr std::size_t k_grid_size = 6;

/// What is believed before anything is counted.
struct CountPriors {
  PriorGrid<total_grid_size> total;  ///< the season's seedlings on a square meter, to 3 deviations either way
  PriorGrid<k_grid_size> patchiness;  ///< the negative binomial's k
  double stray_share = 0.0;           ///< see CountRule
};
CountPriors count_priors(const CountRule& rule);

/// What the likelihood needs of a group: whatever the course, computed once.
struct GroupSums {
  double plots = 0.0;
  double plants = 0.0;
  double empty_plots = 0.0;
  std::array<double, k_grid_size> constant{};  ///< the factors without the mean, in logarithms, by k
};
std::vector<GroupSums> sums_of(std::span<const PlotGroup> groups, const CountPriors& priors);

/// ln(k + mean) of one course for every total, k and group: all that a course adds, so that many series of
/// counts can be tried against it.
class CurveMeans {
 public:
  /// `shares` by visit, 0..1; below the stray share they count as that. `priors` must outlive this.
  CurveMeans(std::span<const PlotGroup> groups, std::span<const double> shares, const CountPriors& priors);
  /// Logarithm of the probability of the counts: each plot negative binomial with mean total * share * area,
  /// k and total shared by all groups and integrated out.
  double log_likelihood(std::span<const GroupSums> sums) const;

 private:
  const CountPriors* priors_;
  std::vector<double> log_base_mean_;  // ln(share * area) by group
  std::vector<double> log_k_plus_mean_;
};

/// ln(sum of exp(values)); minus infinity for none.
double log_sum_exp(std::span<const double> values);

/// The count at a probability in (0, 1) of a negative binomial plot; mean above 0.
int count_at(double probability, double mean, double k);

}  // namespace soilclock::advice
