// SPDX-License-Identifier: MIT
#include "advice/scouting/posterior_check.hpp"

#include <algorithm>
#include <cmath>

namespace soilclock::advice {

namespace {

/// So many true series say what is usual.
constexpr std::size_t simulated_series = 2000;

/// Members the evidence is taken over; more change it little and cost time.
constexpr std::size_t evidence_members = 80;

double log_mean_exp(std::span<const double> values) {
  return log_sum_exp(values) - std::log(static_cast<double>(values.size()));
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

/// Counts of a season drawn from one of the members.
std::vector<PlotGroup> simulated(std::vector<PlotGroup> plots, const std::vector<std::vector<double>>& shares,
                                 const CountPriors& priors, const RandomField& random, std::uint64_t series) {
  std::uint64_t next = 0;
  const auto uniform = [&] { return random.uniform(series, next++); };
  const auto member = static_cast<std::size_t>(uniform() * static_cast<double>(shares.size()));
  const double total = priors.total.value[drawn_index(priors.total, uniform())];
  const double k = priors.patchiness.value[drawn_index(priors.patchiness, uniform())];
  for (PlotGroup& group : plots) {
    const double mean = total * std::max(shares[member][group.visit], priors.stray_share) * group.area_m2;
    for (int& count : group.counts) count = count_at(uniform(), mean, k);
  }
  return plots;
}

}  // namespace

FreeMeans::FreeMeans(std::span<const PlotGroup> groups, const PriorGrid<k_grid_size>& patchiness,
                     const CountCheckRule& rule)
    : zero_inflated_shares_{rule.empty_shares.size()}, log_probability_of_k_{patchiness.log_probability} {
  for (const PlotGroup& group : groups) {
    visit_of_.push_back(group.visit);
    visits_ = std::max(visits_, group.visit + 1);
  }
  std::vector<double> empty_shares{0.0};  // plain plots
  empty_shares.insert(empty_shares.end(), rule.empty_shares.begin(), rule.empty_shares.end());
  terms_.reserve(empty_shares.size() * k_grid_size * density_steps * groups.size());
  for (const double empty_share : empty_shares) {
    for (const double k : patchiness.value) {
      for (std::size_t step = 0; step < density_steps; ++step) {
        const double along = static_cast<double>(step) / static_cast<double>(density_steps - 1);
        const double density = rule.density_least * std::pow(rule.density_most / rule.density_least, along);
        for (const PlotGroup& group : groups) {
          const double mean = density * group.area_m2;
          const double empty = k * std::log(k / (k + mean));  // of one plot that may hold some
          terms_.push_back({std::log(mean / (k + mean)), k * -std::log(k + mean), std::log(1.0 - empty_share),
                            std::log(empty_share + (1.0 - empty_share) * std::exp(empty)) - empty});
        }
      }
    }
  }
}

double FreeMeans::evidence(std::span<const GroupSums> sums, std::size_t empty_share) const {
  const std::size_t groups = sums.size();
  std::array<double, k_grid_size> by_k{};
  for (std::size_t i = 0; i < k_grid_size; ++i) {
    std::vector<double> by_density(visits_ * density_steps);
    const Term* term = &terms_[(empty_share * k_grid_size + i) * density_steps * groups];
    for (std::size_t step = 0; step < density_steps; ++step) {
      for (std::size_t g = 0; g < groups; ++g, ++term) {
        const GroupSums& group = sums[g];
        by_density[visit_of_[g] * density_steps + step] +=
            group.constant[i] + group.plants * term->plant + group.plots * term->plot +
            (group.plots - group.empty_plots) * term->filled + group.empty_plots * term->empty;
      }
    }
    by_k[i] = log_probability_of_k_[i];
    for (std::size_t visit = 0; visit < visits_; ++visit) {
      by_k[i] += log_mean_exp(std::span{by_density}.subspan(visit * density_steps, density_steps));
    }
  }
  return log_sum_exp(by_k);
}

double FreeMeans::plain(std::span<const GroupSums> sums) const { return evidence(sums, 0); }

double FreeMeans::zero_inflated(std::span<const GroupSums> sums) const {
  std::vector<double> by_share(zero_inflated_shares_);
  for (std::size_t i = 0; i < by_share.size(); ++i) by_share[i] = evidence(sums, i + 1);
  return log_mean_exp(by_share);
}

PosteriorCheck::PosteriorCheck(std::vector<PlotGroup> groups, const std::vector<std::vector<double>>& shares,
                               const CountPriors& priors, const CountCheckRule& rule, RandomField random)
    : priors_{&priors},
      rule_{&rule},
      groups_{std::move(groups)},
      random_{random},
      free_means_{groups_, priors.patchiness, rule} {
  // Series are simulated from members the evidence is not taken over, as a true season is none of them
  // either.
  const std::size_t step = std::max<std::size_t>(2, shares.size() / evidence_members);
  for (std::size_t member = 0; member < shares.size(); ++member) {
    if (member % step == 0) curves_.emplace_back(groups_, shares[member], priors);
    if (member % step != 0 || shares.size() == 1) others_.push_back(shares[member]);
  }
}

CheckFlags PosteriorCheck::judged(std::span<const PlotGroup> groups) const {
  const double curve_limit = rule_->curve_surprise * static_cast<double>(simulated_series);
  const double plots_limit = rule_->plots_surprise * static_cast<double>(simulated_series);
  const CheckStatistics found = of(groups);
  double lower_curve = 0.0;
  double lower_plots = 0.0;
  for (std::size_t series = 0; series < simulated_series; ++series) {
    if (series == simulated_.size())
      simulated_.push_back(of(simulated(groups_, others_, *priors_, random_, series)));
    if (simulated_[series].curve <= found.curve) lower_curve += 1.0;
    if (simulated_[series].plots <= found.plots) lower_plots += 1.0;
    if (lower_curve >= curve_limit && lower_plots >= plots_limit) break;  // neither can be flagged any more
  }
  return {lower_curve < curve_limit, lower_plots < plots_limit};
}

CheckStatistics PosteriorCheck::of(std::span<const PlotGroup> groups) const {
  const std::vector<GroupSums> sums = sums_of(groups, *priors_);
  std::vector<double> evidence;
  for (const CurveMeans& curve : curves_) evidence.push_back(curve.log_likelihood(sums));
  const double free = free_means_.plain(sums);
  return {log_mean_exp(evidence) - free, free - free_means_.zero_inflated(sums)};
}

}  // namespace soilclock::advice
