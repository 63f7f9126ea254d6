// SPDX-License-Identifier: MIT
// How many minutes neighboring rows lie apart.
#pragma once

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <vector>

#include "weather/rows/row_clock.hpp"

namespace soilclock::weather {

/// Counts steps between neighbors.
class StepCounts {
 public:
  StepCounts() = default;
  StepCounts(StepCounts&&) = default;

  void add(long long minutes) {
    // Most files have one step all along, and then nothing is looked up.
    if (last_ == nullptr || last_->first != minutes) last_ = &*counts_.try_emplace(minutes, 0).first;
    ++last_->second;
  }
  /// The most frequent step, of equally frequent ones the shortest; nothing when there are none.
  std::optional<long long> usual() const;
  const std::map<long long, std::size_t>& counts() const { return counts_; }

 private:
  std::map<long long, std::size_t> counts_;
  std::pair<const long long, std::size_t>* last_ = nullptr;  // of counts_, the one counted last
};

/// The steps between the different moments of a table in order of time; `minutes` says when a moment is.
template <class Minutes>
StepCounts steps_in_order(const TimedRows& rows, Minutes minutes) {
  StepCounts steps;
  const std::vector<Moment>& moments = rows.moments;
  const auto earlier = [&](const Moment& a, const Moment& b) { return minutes(a) < minutes(b); };
  const auto count = [&](const auto& sorted, const auto& at) {
    for (std::size_t i = 1; i < sorted.size(); ++i) {
      const long long step = at(sorted[i]) - at(sorted[i - 1]);
      if (step != 0) steps.add(step);
    }
  };
  if (std::is_sorted(moments.begin(), moments.end(), earlier)) {
    count(moments, minutes);
    return steps;
  }
  std::vector<long long> sorted;
  sorted.reserve(moments.size());
  for (const Moment& moment : moments) sorted.push_back(minutes(moment));
  std::sort(sorted.begin(), sorted.end());
  count(sorted, [](long long at) { return at; });
  return steps;
}

}  // namespace soilclock::weather
