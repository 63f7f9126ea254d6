// SPDX-License-Identifier: MIT
// Counts in a treated piece of turf and an untreated strip, drawn from patchy stands of known control.
#pragma once

#include <algorithm>
#include <random>

#include "treatment/observed_control.hpp"

namespace soilclock::treatment {

/// Plants of a plot of a patchy stand: negative binomial of this mean and k.
inline int patchy(double mean, double k, std::mt19937& random) {
  std::gamma_distribution<double> density{k, mean / k};
  return std::poisson_distribution<int>{std::max(1e-12, density(random))}(random);
}

/// Of so many strips, those whose control could be judged and those whose band held the truth.
struct HeldControls {
  int strips = 0;
  int judged = 0;
  int held = 0;
  double share() const { return static_cast<double>(held) / judged; }
};

/// Strips of 12 plants a plot on average where a treatment leaves this share, on so many plots a side.
inline HeldControls controls_held(double left, std::size_t plots, const CountDoubt& doubt) {
  constexpr double plants_a_plot = 12.0;
  std::mt19937 random{11};
  HeldControls result{4000};
  for (int strip = 0; strip < result.strips; ++strip) {
    PlotsCompared counts;
    for (std::size_t plot = 0; plot < plots; ++plot) {
      counts.untreated.push_back(patchy(plants_a_plot, doubt.patchiness, random));
      counts.treated.push_back(patchy(plants_a_plot * left, doubt.patchiness, random));
    }
    const auto control = observed_control(counts, doubt);
    if (!control) continue;
    ++result.judged;
    const double truth = 100.0 * (1.0 - left);
    result.held += control->percent.low <= truth && truth <= control->percent.high ? 1 : 0;
  }
  return result;
}

}  // namespace soilclock::treatment
