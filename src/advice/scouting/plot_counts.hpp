// SPDX-License-Identifier: MIT
// How likely counts of seedlings in plots are when the share of the season's seedlings that is up is given:
// the season's total and the patchiness of the plants are unknown and integrated out.
#pragma once

#include <array>
#include <span>
#include <vector>

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

/// The season's total of seedlings per square metre: log-normal, median 100, standard deviation 1.3 in the
/// logarithm, from 3 deviations below to 3 above. Judgment: bare to heavily infested turf, 2 to 5,000.
constexpr std::size_t total_grid_size = 36;
const PriorGrid<total_grid_size>& total_prior();

/// The negative binomial's k (small is patchy): log-normal, median 1.2, cut at 0.5 and 3, which lie two
/// deviations out. Judgment: weed seedlings in quadrats are patchy, never as even as a Poisson count.
constexpr std::size_t k_grid_size = 6;
const PriorGrid<k_grid_size>& patchiness_prior();

/// A share of the total that may stand where a course says none is up: strays of another season and what no
/// model sees. Keeps one early seedling from ruling a course out. Judgment.
inline constexpr double stray_share = 0.002;

/// What the likelihood needs of a group: whatever the course, computed once.
struct GroupSums {
  double plots = 0.0;
  double plants = 0.0;
  double empty_plots = 0.0;
  std::array<double, k_grid_size> constant{};  ///< the factors without the mean, in logarithms, by k
};
GroupSums sums_of(const PlotGroup& group);
std::vector<GroupSums> sums_of(std::span<const PlotGroup> groups);

/// ln(k + mean) of one course for every total, k and group: all that a course adds, so that many series of
/// counts can be tried against it.
class CurveMeans {
 public:
  /// `shares` by visit, 0..1; below stray_share they count as that.
  CurveMeans(std::span<const PlotGroup> groups, std::span<const double> shares);
  /// Logarithm of the probability of the counts: each plot negative binomial with mean total * share * area,
  /// k and total shared by all groups and integrated out.
  double log_likelihood(std::span<const GroupSums> sums) const;

 private:
  std::vector<double> log_base_mean_;  // ln(share * area) by group
  std::vector<double> log_k_plus_mean_;
};

/// ln(sum of exp(values)); minus infinity for none.
double log_sum_exp(std::span<const double> values);

/// The count at a probability in (0, 1) of a negative binomial plot; mean above 0.
int count_at(double probability, double mean, double k);

}  // namespace soilclock::advice
