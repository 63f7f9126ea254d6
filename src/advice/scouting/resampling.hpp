// SPDX-License-Identifier: MIT
// From weighted members to equally likely ones.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "advice/ensemble/target_run.hpp"

namespace soilclock::advice {

/// exp(log weights), scaled to a sum of 1; infinitely unlikely members get 0. All equally likely when none is
/// possible.
std::vector<double> normalized(std::span<const double> log_weights);

/// How many equally weighted members say as much as these (sum 1): 1 / sum of squares. Kong, Liu & Wong 1994,
/// Journal of the American Statistical Association 89:278-288.
double effective_size(std::span<const double> weights);

/// Systematic resampling: `size` indices, each as often as its weight (sum 1) asks for, less or more than
/// one. `order` says along what the comb is laid (indices sorted by what matters, so that neighbors stand
/// for each other), `offset` in [0, 1) where it starts. The result rises, and equal weights give every index
/// once. Kitagawa 1996, Journal of Computational and Graphical Statistics 5:1-25.
std::vector<std::size_t> resampled(std::span<const double> weights, std::span<const std::size_t> order,
                                   std::size_t size, double offset);

/// The course so many days later (negative: earlier), closed at its own total again. An end that comes before
/// the season is cut off.
emergence::EmergenceCurve shifted(const emergence::EmergenceCurve& curve, int days);

/// Makes the models' weights those the members stand for.
void reweigh_models(TargetRun& run);

}  // namespace soilclock::advice
