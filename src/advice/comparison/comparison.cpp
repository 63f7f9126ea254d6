// SPDX-License-Identifier: MIT
#include "advice/comparison/comparison.hpp"

#include <algorithm>

namespace soilclock::advice {

std::vector<SeasonRow> sites_side_by_side(const std::vector<SiteComparison>& sites,
                                          const std::string& target) {
  std::vector<SeasonRow> rows;
  for (const SiteComparison& site : sites) {
    for (const TargetComparison& comparison : site.targets) {
      if (comparison.target != target) continue;
      SeasonRow row = comparison.seasons.back();
      row.label = site.answer.name;
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

std::vector<std::pair<std::string, std::string>> targets_compared(const std::vector<SiteComparison>& sites) {
  std::vector<std::pair<std::string, std::string>> targets;
  for (const SiteComparison& site : sites) {
    for (const TargetComparison& comparison : site.targets) {
      const std::pair target{comparison.target, comparison.title};
      if (std::find(targets.begin(), targets.end(), target) == targets.end()) targets.push_back(target);
    }
  }
  return targets;
}

}  // namespace soilclock::advice
