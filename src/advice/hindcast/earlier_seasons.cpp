// SPDX-License-Identifier: MIT
#include "advice/hindcast/earlier_seasons.hpp"

#include <algorithm>

#include "advice/hindcast/season_in_hindsight.hpp"
#include "advice/scouting/usable_notes.hpp"

namespace soilclock::advice {

std::vector<std::vector<EarlierSeason>> earlier_seasons(const SiteHistory& history, const Season& season,
                                                        std::span<const emergence::Target* const> targets,
                                                        const SiteLog& log, const Catalogue& catalogue,
                                                        const EnsembleDraws& size) {
  std::vector<std::vector<EarlierSeason>> found(targets.size());
  const auto most = static_cast<std::size_t>(catalogue.scouting.earlier_seasons.seasons_most);
  const auto notes_of = [&](const emergence::Target& target, const Season& over) {
    return usable_notes(target.code, over, log, over.end());
  };
  const Day begin = weather::covered(history.daily).begin();
  for (Season over = season.previous(); over.first >= begin; over = over.previous()) {
    std::vector<const emergence::Target*> noted;
    for (std::size_t t = 0; t < targets.size(); ++t) {
      if (found[t].size() < most && !notes_of(*targets[t], over).none()) noted.push_back(targets[t]);
    }
    if (noted.empty()) continue;
    const auto seen = in_hindsight(history, over, noted, catalogue, size);
    if (!seen || complete_since(seen->site) > over.first) continue;
    for (const TargetRun& run : seen->ensemble.runs.targets) {
      const auto target = std::find(targets.begin(), targets.end(), run.job.target);
      found[static_cast<std::size_t>(target - targets.begin())].push_back(
          earlier_season(run, evidence_of(notes_of(**target, over), over, catalogue.scouting)));
    }
  }
  for (auto& seasons : found) std::reverse(seasons.begin(), seasons.end());
  return found;
}

}  // namespace soilclock::advice
