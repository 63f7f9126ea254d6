// SPDX-License-Identifier: MIT
#include "advice/hindcast/earlier_seasons.hpp"

#include <algorithm>
#include <cmath>

#include "advice/hindcast/season_in_hindsight.hpp"
#include "advice/scouting/resampling.hpp"
#include "advice/scouting/usable_notes.hpp"

namespace soilclock::advice {

namespace {

/// A member with its day of 50 percent.
struct Dated {
  const TargetMember* member = nullptr;
  int half = 0;
};

/// The members of a model that reach 50 percent, by that day.
std::vector<Dated> dated_members(const TargetRun& run, std::size_t model) {
  std::vector<Dated> dated;
  for (const TargetMember& member : run.members) {
    if (member.model != model) continue;
    if (const auto half = member.curve.first_day_reaching(0.5)) dated.push_back({&member, *half});
  }
  std::stable_sort(dated.begin(), dated.end(), [](const Dated& a, const Dated& b) { return a.half < b.half; });
  return dated;
}

EarlierModel earlier_model(const TargetRun& run, const std::string& id, const std::vector<Dated>& dated,
                           const ScoutingEvidence& evidence, const EarlierSeasonRule& rule) {
  const auto count = static_cast<double>(dated.size());
  double mean = 0.0;
  for (const Dated& one : dated) mean += one.half / count;
  double variance = 0.0;
  for (const Dated& one : dated) variance += (one.half - mean) * (one.half - mean) / count;
  EarlierModel model{id, std::sqrt(variance), {}};
  const std::size_t shapes = std::min(dated.size(), static_cast<std::size_t>(rule.shapes));
  for (int days = -rule.reach_days; days <= rule.reach_days; ++days) {
    std::vector<double> logs;
    for (std::size_t i = 0; i < shapes; ++i) {
      const Dated& one = dated[(2 * i + 1) * dated.size() / (2 * shapes)];
      TargetMember moved{one.member->model, {}, one.member->thermal_age, one.member->phyllochron, 0};
      moved.curve = shifted(one.member->curve, static_cast<int>(std::lround(mean)) - one.half + days);
      logs.push_back(log_likelihood(evidence, moved, *run.job.growth));
    }
    model.log_likelihood.push_back(log_sum_exp(logs) - std::log(static_cast<double>(shapes)));
  }
  return model;
}

}  // namespace

EarlierSeason earlier_season(const TargetRun& run, const ScoutingEvidence& evidence,
                             const EarlierSeasonRule& rule) {
  EarlierSeason earlier{run.season.first, {}, evidence.visit_days, evidence.plots,
                        evidence.first_sight.has_value(), {}};
  for (std::size_t k = 0; k < run.job.models.size(); ++k) {
    const std::vector<Dated> dated = dated_members(run, k);
    if (dated.empty()) continue;
    earlier.models.push_back(earlier_model(run, run.job.models[k].model->id, dated, evidence, rule));
  }
  return earlier;
}

std::vector<std::vector<EarlierSeason>> earlier_seasons(const SiteHistory& history, const Season& season,
                                                        std::span<const emergence::Target* const> targets,
                                                        const SiteLog& log, const Catalogue& catalogue,
                                                        std::uint64_t seed) {
  const EarlierSeasonRule& rule = catalogue.scouting.earlier_seasons;
  std::vector<std::vector<EarlierSeason>> found(targets.size());
  const auto enough = [&](std::size_t t) {
    return found[t].size() >= static_cast<std::size_t>(rule.seasons_most);
  };
  const Day begin = weather::covered(history.daily).begin();
  for (Season over = season.previous(); over.first >= begin; over = over.previous()) {
    std::vector<const emergence::Target*> noted;
    for (std::size_t t = 0; t < targets.size(); ++t) {
      if (!enough(t) && !usable_notes(targets[t]->code, over, log, over.end()).none())
        noted.push_back(targets[t]);
    }
    if (noted.empty()) continue;
    const auto seen = in_hindsight(history, over, noted, catalogue,
                                   {catalogue.practice.past_seasons.members, seed});
    if (!seen || complete_since(seen->site) > over.first) continue;
    for (const TargetRun& run : seen->ensemble.runs.targets) {
      const std::string& code = run.job.target->code;
      EarlierSeason earlier = earlier_season(
          run, evidence_of(usable_notes(code, over, log, over.end()), over, catalogue.scouting), rule);
      const auto target = std::find(targets.begin(), targets.end(), run.job.target);
      if (!earlier.models.empty())
        found[static_cast<std::size_t>(target - targets.begin())].push_back(std::move(earlier));
    }
  }
  for (auto& seasons : found) std::reverse(seasons.begin(), seasons.end());
  return found;
}

}  // namespace soilclock::advice
