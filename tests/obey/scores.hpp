// SPDX-License-Identifier: MIT
// Cases summed up: mean, 95th percentile and worst regret of the rule and of its rivals.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "obey/walk.hpp"

namespace soilclock::obey {

struct Summary {
  std::size_t count = 0;
  double mean = 0.0;
  double p95 = 0.0;  ///< the smallest value that 95 percent do not exceed
  double worst = 0.0;
};
/// All zero without values.
Summary summary_of(std::vector<double> values);

/// A rival, and the rule on the cases that rival could take part in.
struct Beside {
  Summary rival;
  Summary rule;
};

struct Scores {
  Summary rule;
  std::array<Beside, rival_count> rivals;
  std::size_t without_word = 0;  ///< never told to treat
};

using Chosen = std::function<bool(const Case&)>;
Scores scores_of(const std::vector<Case>& cases, const Chosen& chosen);

/// The best week lies more than a week off the station's usual one.
bool is_off_usual(const Case& one);

}  // namespace soilclock::obey
