// SPDX-License-Identifier: MIT
#include "obey/scores.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace soilclock::obey {

Summary summary_of(std::vector<double> values) {
  if (values.empty()) return {};
  std::sort(values.begin(), values.end());
  const double size = static_cast<double>(values.size());
  const auto at = static_cast<std::size_t>(std::ceil(0.95 * size)) - 1;
  return {values.size(), std::accumulate(values.begin(), values.end(), 0.0) / size, values[at],
          values.back()};
}

Scores scores_of(const std::vector<Case>& cases, const Chosen& chosen) {
  std::vector<double> rule;
  std::array<std::vector<double>, rival_count> rivals;
  std::array<std::vector<double>, rival_count> beside;
  Scores scores;
  for (const Case& one : cases) {
    if (!chosen(one)) continue;
    rule.push_back(one.regret);
    if (!one.said_monday) ++scores.without_word;
    for (std::size_t rival = 0; rival < rival_count; ++rival) {
      if (!one.rivals[rival]) continue;
      rivals[rival].push_back(*one.rivals[rival]);
      beside[rival].push_back(one.regret);
    }
  }
  scores.rule = summary_of(std::move(rule));
  for (std::size_t rival = 0; rival < rival_count; ++rival)
    scores.rivals[rival] = {summary_of(std::move(rivals[rival])), summary_of(std::move(beside[rival]))};
  return scores;
}

bool is_off_usual(const Case& one) { return one.weeks_off_usual && *one.weeks_off_usual > 1.0; }

}  // namespace soilclock::obey
