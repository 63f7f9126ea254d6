// SPDX-License-Identifier: MIT
#include "advice/scouting/resampling.hpp"

#include <algorithm>
#include <cmath>

#include "advice/scouting/plot_counts.hpp"

namespace soilclock::advice {

std::vector<double> normalized(std::span<const double> log_weights) {
  const double all = log_sum_exp(log_weights);
  std::vector<double> weights;
  for (const double log_weight : log_weights) {
    weights.push_back(std::isfinite(all) ? std::exp(log_weight - all)
                                         : 1.0 / static_cast<double>(log_weights.size()));
  }
  return weights;
}

double effective_size(std::span<const double> weights) {
  double squares = 0.0;
  for (const double weight : weights) squares += weight * weight;
  return squares > 0.0 ? 1.0 / squares : 0.0;
}

std::vector<std::size_t> resampled(std::span<const double> weights, std::span<const std::size_t> order,
                                   std::size_t size, double offset) {
  std::vector<std::size_t> chosen;
  double upto = 0.0;
  for (const std::size_t index : order) {
    upto += weights[index] * static_cast<double>(size);
    while (chosen.size() < size && static_cast<double>(chosen.size()) + offset < upto)
      chosen.push_back(index);
  }
  // Rounding may leave the last tooth of the comb beyond the sum.
  while (chosen.size() < size && !order.empty()) chosen.push_back(order.back());
  std::sort(chosen.begin(), chosen.end());
  return chosen;
}

emergence::EmergenceCurve shifted(const emergence::EmergenceCurve& curve, int days) {
  emergence::EmergenceCurve moved;
  for (int day = 0; day < static_cast<int>(curve.up.size()); ++day) moved.up.push_back(curve.at(day - days));
  moved.close_at_own_total();
  if (curve.main_wave_over) {
    const int over = std::max(0, *curve.main_wave_over + days);
    if (over < static_cast<int>(moved.up.size())) moved.main_wave_over = over;
  }
  return moved;
}

void reweigh_models(TargetRun& run) {
  for (WeightedModel& model : run.job.models) model.weight = 0.0;
  for (const TargetMember& member : run.members) {
    run.job.models[member.model].weight += 1.0 / static_cast<double>(run.members.size());
  }
}

}  // namespace soilclock::advice
