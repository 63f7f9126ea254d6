// SPDX-License-Identifier: MIT
#include "advice/scouting/plot_counts.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace soilclock::advice {

namespace {

/// Even steps of a log-normal's logarithm from `low` to `high`, weighted by its density.
template <std::size_t Size>
PriorGrid<Size> log_normal_grid(double median, double sd, double low, double high) {
  PriorGrid<Size> grid;
  for (std::size_t i = 0; i < Size; ++i) {
    const double step = static_cast<double>(i) / static_cast<double>(Size - 1);
    grid.log_value[i] = std::log(low) + step * (std::log(high) - std::log(low));
    grid.value[i] = std::exp(grid.log_value[i]);
    const double z = (grid.log_value[i] - std::log(median)) / sd;
    grid.log_probability[i] = -0.5 * z * z;
  }
  const double all = log_sum_exp(grid.log_probability);
  for (double& log_probability : grid.log_probability) log_probability -= all;
  return grid;
}

GroupSums sums_of(const PlotGroup& group, const CountPriors& priors) {
  GroupSums sums;
  sums.plots = static_cast<double>(group.counts.size());
  for (const int count : group.counts) {
    sums.plants += count;
    if (count == 0) sums.empty_plots += 1.0;
  }
  for (std::size_t i = 0; i < k_grid_size; ++i) {
    const double k = priors.patchiness.value[i];
    double log_factor = sums.plots * k * std::log(k);
    for (const int count : group.counts)
      log_factor += std::lgamma(count + k) - std::lgamma(k) - std::lgamma(count + 1.0);
    sums.constant[i] = log_factor;
  }
  return sums;
}

}  // namespace

CountPriors count_priors(const CountRule& rule) {
  const double median = rule.total_median;
  const double sd = rule.total_log_sd;
  return {
      log_normal_grid<total_grid_size>(median, sd, median * std::exp(-3.0 * sd), median * std::exp(3.0 * sd)),
      log_normal_grid<k_grid_size>(rule.patchiness_median, rule.patchiness_log_sd, rule.patchiness_least,
                                   rule.patchiness_most),
      rule.stray_share};
}

std::vector<GroupSums> sums_of(std::span<const PlotGroup> groups, const CountPriors& priors) {
  std::vector<GroupSums> sums;
  for (const PlotGroup& group : groups) sums.push_back(sums_of(group, priors));
  return sums;
}

CurveMeans::CurveMeans(std::span<const PlotGroup> groups, std::span<const double> shares,
                       const CountPriors& priors)
    : priors_{&priors} {
  const auto& totals = priors.total;
  const auto& ks = priors.patchiness;
  log_k_plus_mean_.reserve(total_grid_size * k_grid_size * groups.size());
  std::vector<double> base;
  for (const PlotGroup& group : groups) {
    base.push_back(std::max(shares[group.visit], priors.stray_share) * group.area_m2);
    log_base_mean_.push_back(std::log(base.back()));
  }
  for (const double total : totals.value) {
    for (const double k : ks.value) {
      for (const double mean : base) log_k_plus_mean_.push_back(std::log(k + total * mean));
    }
  }
}

double CurveMeans::log_likelihood(std::span<const GroupSums> sums) const {
  const auto& totals = priors_->total;
  const auto& ks = priors_->patchiness;
  std::array<double, total_grid_size * k_grid_size> logs{};
  std::size_t next_term = 0;
  std::size_t next_log = 0;
  for (std::size_t t = 0; t < total_grid_size; ++t) {
    for (std::size_t i = 0; i < k_grid_size; ++i) {
      double value = totals.log_probability[t] + ks.log_probability[i];
      for (std::size_t g = 0; g < sums.size(); ++g) {
        const GroupSums& group = sums[g];
        value += group.constant[i] + group.plants * (totals.log_value[t] + log_base_mean_[g]) -
                 (group.plots * ks.value[i] + group.plants) * log_k_plus_mean_[next_term++];
      }
      logs[next_log++] = value;
    }
  }
  return log_sum_exp(logs);
}

double log_sum_exp(std::span<const double> values) {
  if (values.empty()) return -std::numeric_limits<double>::infinity();
  const double most = *std::max_element(values.begin(), values.end());
  if (!std::isfinite(most)) return most;
  double sum = 0.0;
  for (const double value : values) sum += std::exp(value - most);
  return most + std::log(sum);
}

int count_at(double probability, double mean, double k) {
  constexpr int most = 1'000'000;  // as many as a count may be noted
  const double ratio = mean / (k + mean);
  double term = std::exp(k * std::log(k / (k + mean)));
  double upto = term;
  int count = 0;
  while (upto < probability && count < most && term > 0.0) {
    term *= ratio * (count + k) / (count + 1.0);
    upto += term;
    ++count;
  }
  return count;
}

}  // namespace soilclock::advice
