// SPDX-License-Identifier: MIT
#include "advice/scouting/scouting_evidence.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "emergence/stages.hpp"

namespace soilclock::advice {

namespace {

/// Everything by which counts are sorted, so that the order of notes does not matter.
auto sort_key(const LoggedCount& count, double usual_plot_m2) {
  return std::tuple{count.day, count.fresh, count.plot_area_m2.value_or(usual_plot_m2), count.counts,
                    count.ground_share.value_or(Fraction{}).value()};
}

std::size_t visit_of(ScoutedArea& area, int day, bool fresh, std::optional<int>& last_fresh) {
  const bool same =
      !area.visits.empty() && area.visits.back().season_day == day && area.visits.back().fresh == fresh;
  if (same) return area.visits.size() - 1;
  area.visits.push_back({day, fresh, fresh ? last_fresh : std::nullopt});
  if (fresh) last_fresh = day;
  return area.visits.size() - 1;
}

ScoutedArea scouted_area(const std::string& name, std::vector<const LoggedCount*> counts,
                         const Season& season, double usual_plot_m2, const CountPriors& priors) {
  const auto key = [&](const LoggedCount* count) { return sort_key(*count, usual_plot_m2); };
  std::sort(counts.begin(), counts.end(),
            [&](const LoggedCount* a, const LoggedCount* b) { return key(a) < key(b); });
  ScoutedArea area;
  area.name = name;
  std::optional<int> last_fresh;
  for (const LoggedCount* count : counts) {
    if (count->counts.empty() && !count->ground_share) continue;
    const std::size_t visit = visit_of(area, season.day_of_season(count->day), count->fresh, last_fresh);
    if (count->ground_share) area.looks.push_back({visit, count->ground_share->value()});
    if (count->counts.empty()) continue;
    const double size = count->plot_area_m2.value_or(usual_plot_m2);
    if (area.plots.empty() || area.plots.back().visit != visit || area.plots.back().area_m2 != size) {
      area.plots.push_back({visit, size, {}});
    }
    auto& group = area.plots.back().counts;
    group.insert(group.end(), count->counts.begin(), count->counts.end());
  }
  area.sums = sums_of(area.plots, priors);
  return area;
}

double log_normal_density(double deviation, double sd) {
  return -0.5 * deviation * deviation / (sd * sd) - std::log(sd);
}

/// Log probability of the looks at the ground, the full cover integrated out on the steps of the total's
/// grid.
double looks_log_likelihood(const std::vector<GroundLook>& looks, const std::vector<double>& shares,
                            const CountRule& rule) {
  std::vector<double> logs;
  constexpr int steps = 36;
  for (int step = 0; step < steps; ++step) {
    const double z = 6.0 * step / (steps - 1) - 3.0;
    const double log_full = std::log(rule.full_cover) + z * rule.full_cover_log_sd;
    double value = -0.5 * z * z;
    for (const GroundLook& look : looks) {
      const double expected = log_full + std::log(std::max(shares[look.visit], rule.stray_share));
      const double seen = std::log(-std::log(1.0 - std::clamp(look.share, rule.least_seen, rule.most_seen)));
      const double off = seen - expected;
      value += look.share < rule.least_seen
                   ? std::log(std::max(1e-300, 0.5 * std::erfc(-off / (rule.look_log_sd * std::sqrt(2.0)))))
                   : log_normal_density(off, rule.look_log_sd);
    }
    logs.push_back(value);
  }
  return log_sum_exp(logs);
}

double share_in(const emergence::StageShares& shares, SeenStage stage) {
  switch (stage) {
    case SeenStage::leaves_1_3:
      return shares.leaves_1_3;
    case SeenStage::to_one_tiller:
      return shares.to_one_tiller;
    case SeenStage::two_tillers:
      return shares.two_tillers;
    case SeenStage::older:
      break;
  }
  return shares.older;
}

double stage_log_likelihood(const StageLook& look, const TargetMember& member,
                            const emergence::GrowthModel& growth, double misjudged) {
  constexpr double stages = 4.0;
  const auto shares =
      emergence::stages_at(member.curve, member.thermal_age, look.season_day, growth, member.phyllochron);
  return std::log((1.0 - misjudged) * share_in(shares, look.stage) + misjudged / stages);
}

}  // namespace

ScoutingEvidence scouting_evidence(std::span<const LoggedCount> counts, const Season& season,
                                   const CountRule& rule) {
  ScoutingEvidence evidence;
  evidence.rule = rule;
  evidence.priors = count_priors(rule);
  std::map<std::string, std::vector<const LoggedCount*>> by_area;
  std::set<Day> days;
  for (const LoggedCount& count : counts) {
    by_area[count.area].push_back(&count);
    days.insert(count.day);
    evidence.plots += static_cast<int>(count.counts.size());
    for (const int plants : count.counts) evidence.plants += plants;
    evidence.plot_size_guessed = evidence.plot_size_guessed || (!count.counts.empty() && !count.plot_area_m2);
    if (count.stage) evidence.stages.push_back({season.day_of_season(count.day), *count.stage});
  }
  evidence.visit_days = static_cast<int>(days.size());
  for (const auto& [name, of_area] : by_area)
    evidence.areas.push_back(scouted_area(name, of_area, season, rule.usual_plot_m2, evidence.priors));
  // In order, since sums round by their order; the same stage noted twice on a day is one look.
  const auto key = [](const StageLook& look) { return std::tuple{look.season_day, look.stage}; };
  std::sort(evidence.stages.begin(), evidence.stages.end(),
            [&](const auto& a, const auto& b) { return key(a) < key(b); });
  const auto same = [&](const auto& a, const auto& b) { return key(a) == key(b); };
  evidence.stages.erase(std::unique(evidence.stages.begin(), evidence.stages.end(), same),
                        evidence.stages.end());
  return evidence;
}

double share_met(const emergence::EmergenceCurve& curve, const Visit& visit) {
  const auto noon = [&](int day) { return 0.5 * (curve.at(day - 1) + curve.at(day)); };
  return noon(visit.season_day) - (visit.since_season_day ? noon(*visit.since_season_day) : 0.0);
}

std::vector<double> shares_met(const ScoutedArea& area, const emergence::EmergenceCurve& curve) {
  std::vector<double> shares;
  for (const Visit& visit : area.visits) shares.push_back(share_met(curve, visit));
  return shares;
}

double log_likelihood(const ScoutingEvidence& evidence, const TargetMember& member,
                      const emergence::GrowthModel& growth) {
  double sum = 0.0;
  for (const ScoutedArea& area : evidence.areas) {
    const std::vector<double> shares = shares_met(area, member.curve);
    if (!area.plots.empty()) sum += CurveMeans{area.plots, shares, evidence.priors}.log_likelihood(area.sums);
    if (!area.looks.empty()) sum += looks_log_likelihood(area.looks, shares, evidence.rule);
  }
  for (const StageLook& look : evidence.stages)
    sum += stage_log_likelihood(look, member, growth, evidence.rule.stage_misjudged);
  if (const auto& sight = evidence.first_sight)
    sum += first_seen_log_likelihood(sight->rule, member.curve, sight->season_day);
  return sum;
}

}  // namespace soilclock::advice
