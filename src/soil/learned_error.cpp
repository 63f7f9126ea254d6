// SPDX-License-Identifier: MIT
#include "soil/learned_error.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace soilclock::soil {

namespace {

/// Points of the sums, as multiples of the prior's own size; evenly spaced in the logarithm, so each counts
/// for its density times its own value.
constexpr std::array sizes{0.25, 0.35, 0.5, 0.71, 1.0, 1.41, 2.0, 2.83, 4.0};
constexpr std::array noise_parts{0.01, 0.1, 0.3, 1.0, 3.0, 10.0};

double log_prior_of_size(double size, double sd) {
  const double z = std::log(size) / sd;
  return -0.5 * z * z;
}

/// Exponential with mean 1, for points evenly spaced in the logarithm.
double log_prior_of_noise(double part) { return std::log(part) - part; }

std::vector<SoilReading> rougher(std::vector<SoilReading> readings, double variance_k2) {
  for (SoilReading& reading : readings) reading.variance_k2 += variance_k2;
  return readings;
}

/// One pair of values and the logarithm of what it counts for.
struct Candidate {
  double size;
  double noise_k2;
  double log_weight;
};

}  // namespace

LearnedError learned_error(const SoilErrorModel& error, Hemisphere hemisphere,
                           std::vector<SoilReading> readings, const EstimateRules& rules) {
  if (static_cast<int>(readings.size()) < rules.learn_readings) return {error, std::move(readings)};
  Day last = readings.front().day;
  for (const SoilReading& reading : readings) last = std::max(last, reading.day);
  const DayRange judged{last, last + Days{1}};  // with the readings in reach of it
  std::vector<Candidate> candidates;
  for (const double part : noise_parts) {
    const double noise_k2 = part * rules.extra_noise_k2;
    const std::vector<SoilReading> rough = rougher(readings, noise_k2);
    for (const double size : sizes) {
      const double evidence =
          ConditionedSoilError::log_evidence(error.widened(size), hemisphere, judged, rough);
      candidates.push_back(
          {size, noise_k2,
           evidence + log_prior_of_noise(part) + log_prior_of_size(size, rules.error_size_sd)});
    }
  }
  double most = candidates.front().log_weight;
  for (const Candidate& candidate : candidates) most = std::max(most, candidate.log_weight);
  double weights = 0.0;
  double size = 0.0;
  double noise_k2 = 0.0;
  for (const Candidate& candidate : candidates) {
    const double weight = std::exp(candidate.log_weight - most);
    weights += weight;
    size += weight * candidate.size;
    noise_k2 += weight * candidate.noise_k2;
  }
  return {error.widened(size / weights), rougher(std::move(readings), noise_k2 / weights)};
}

}  // namespace soilclock::soil
