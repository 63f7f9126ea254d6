// SPDX-License-Identifier: MIT
#include "advice/scouting_surprise.hpp"

#include <algorithm>
#include <cmath>

namespace soilclock::advice {

namespace {

/// Series simulated for the limits: the point of one in a hundred is then the fourth lowest.
constexpr std::size_t simulated_series = 400;
constexpr double one_sided_level = 0.01;

/// Members the evidence is taken over; more change it little and cost time.
constexpr std::size_t evidence_members = 100;

/// Densities a visit may have by itself, per square metre: even in the logarithm from one plant on a small
/// green to an infested one. A wide guess costs every series alike, and the limits are simulated.
constexpr std::size_t density_steps = 40;
constexpr double least_density = 0.02;
constexpr double most_density = 5000.0;

/// Shares of plots that hold none for another reason than chance.
constexpr std::array<double, 5> hollow_shares{0.2, 0.35, 0.5, 0.65, 0.8};

double log_mean_exp(std::span<const double> values) {
  return log_sum_exp(values) - std::log(static_cast<double>(values.size()));
}

/// Log probability of a group's counts when a share of plots holds none whatever happens.
double group_log_likelihood(const PlotGroup& plots, const GroupSums& sums, std::size_t k_index,
                            double density, double hollow) {
  const double k = patchiness_prior().value[k_index];
  const double mean = density * plots.area_m2;
  const double log_k_plus_mean = std::log(k + mean);
  const double plain = sums.constant[k_index] + sums.plants * std::log(mean) -
                       (sums.plots * k + sums.plants) * log_k_plus_mean;
  if (hollow <= 0.0) return plain;
  const double log_empty = k * (std::log(k) - log_k_plus_mean);  // of one plot that may hold some
  return plain + sums.empty_plots * (std::log(hollow + (1.0 - hollow) * std::exp(log_empty)) - log_empty) +
         (sums.plots - sums.empty_plots) * std::log(1.0 - hollow);
}

/// Log evidence of all visits under means of their own; k and, where asked for, the hollow share are common
/// to them.
double free_evidence(const std::vector<PlotGroup>& plots, const std::vector<GroupSums>& sums, double hollow) {
  std::size_t visits = 0;
  for (const PlotGroup& group : plots) visits = std::max(visits, group.visit + 1);
  std::vector<double> by_k;
  std::vector<double> by_density(density_steps);
  for (std::size_t i = 0; i < k_grid_size; ++i) {
    double all_visits = patchiness_prior().log_probability[i];
    for (std::size_t visit = 0; visit < visits; ++visit) {
      for (std::size_t step = 0; step < density_steps; ++step) {
        const double share = static_cast<double>(step) / static_cast<double>(density_steps - 1);
        const double density = least_density * std::pow(most_density / least_density, share);
        by_density[step] = 0.0;
        for (std::size_t g = 0; g < plots.size(); ++g) {
          if (plots[g].visit == visit)
            by_density[step] += group_log_likelihood(plots[g], sums[g], i, density, hollow);
        }
      }
      all_visits += log_mean_exp(by_density);
    }
    by_k.push_back(all_visits);
  }
  return log_sum_exp(by_k);
}

double hollow_evidence(const std::vector<PlotGroup>& plots, const std::vector<GroupSums>& sums) {
  std::vector<double> by_share;
  for (const double hollow : hollow_shares) by_share.push_back(free_evidence(plots, sums, hollow));
  return log_mean_exp(by_share);
}

/// The index of a grid's value drawn by its prior.
template <std::size_t Size>
std::size_t drawn_index(const PriorGrid<Size>& prior, double uniform) {
  double upto = 0.0;
  for (std::size_t i = 0; i < Size; ++i) {
    upto += std::exp(prior.log_probability[i]);
    if (uniform < upto) return i;
  }
  return Size - 1;
}

double low_point(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(one_sided_level * static_cast<double>(values.size()))];
}

/// Counts of a season that one of the members tells truly.
std::vector<PlotGroup> simulated(std::vector<PlotGroup> plots, const std::vector<std::vector<double>>& shares,
                                 const RandomField& random, std::uint64_t series) {
  std::uint64_t next = 0;
  const auto uniform = [&] { return random.uniform(series, next++); };
  const auto member = static_cast<std::size_t>(uniform() * static_cast<double>(shares.size()));
  const double total = total_prior().value[drawn_index(total_prior(), uniform())];
  const double k = patchiness_prior().value[drawn_index(patchiness_prior(), uniform())];
  for (PlotGroup& group : plots) {
    const double mean = total * std::max(shares[member][group.visit], stray_share) * group.area_m2;
    for (int& count : group.counts) count = count_at(uniform(), mean, k);
  }
  return plots;
}

}  // namespace

SurpriseTest::SurpriseTest(std::vector<PlotGroup> groups, const std::vector<std::vector<double>>& shares,
                           RandomField random)
    : plots_{std::move(groups)} {
  const std::size_t step = std::max<std::size_t>(1, shares.size() / evidence_members);
  for (std::size_t member = 0; member < shares.size(); member += step)
    courses_.emplace_back(plots_, shares[member]);
  std::vector<double> course;
  std::vector<double> plots;
  for (std::uint64_t series = 0; series < simulated_series; ++series) {
    const Surprise one = of(simulated(plots_, shares, random, series));
    course.push_back(one.course);
    plots.push_back(one.plots);
  }
  limit_ = {low_point(std::move(course)), low_point(std::move(plots))};
}

Surprise SurpriseTest::of(std::span<const PlotGroup> groups) const {
  const std::vector<PlotGroup> counted{groups.begin(), groups.end()};
  const std::vector<GroupSums> sums = sums_of(groups);
  std::vector<double> evidence;
  for (const CourseMeans& course : courses_) evidence.push_back(course.log_likelihood(sums));
  const double free = free_evidence(counted, sums, 0.0);
  return {log_mean_exp(evidence) - free, free - hollow_evidence(counted, sums)};
}

}  // namespace soilclock::advice
