// SPDX-License-Identifier: MIT
#include "advice/scouting/earlier_season.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "advice/scouting/resampling.hpp"

namespace soilclock::advice {

namespace {

/// Steps by which members are tried moved in all seasons, in the order of the candidates of a member.
constexpr std::array<int, 5> trials{0, -2, -1, 1, 2};

int days_moved(std::size_t move) { return move_step_days * (static_cast<int>(move) - moves_a_side); }

/// Probabilities of steps moved, normal around 0; the sum is 1.
std::array<double, moves> normal_steps(double sd_days) {
  std::array<double, moves> steps{};
  double sum = 0.0;
  for (std::size_t i = 0; i < moves; ++i) {
    const double z = days_moved(i) / sd_days;
    sum += steps[i] = std::exp(-0.5 * z * z);
  }
  for (double& step : steps) step /= sum;
  return steps;
}

/// A season's likelihood of each candidate, scaled by the highest of its table.
class SeasonFit {
 public:
  SeasonFit(const EarlierSeason& season, const EarlierSeasonRule& rule)
      : season_{&season},
        power_{season.site.empty() ? 1.0 : rule.neighbor_power},
        outlier_share_{rule.outlier_share},
        steps_{normal_steps(season.site.empty() ? rule.season_sd_days : rule.neighbor_sd_days)} {
    highest_ = -std::numeric_limits<double>::max();
    for (const MemberFit& member : season.members)
      highest_ =
          std::max(highest_, *std::max_element(member.log_likelihood.begin(), member.log_likelihood.end()));
    double all = 0.0;
    double unmoved = 0.0;
    for (const MemberFit& member : season.members) {
      for (const double log_value : member.log_likelihood) all += std::exp(log_value - highest_);
      unmoved += fitting(member, 0);
    }
    const auto count = static_cast<double>(season.members.size());
    anywhere_ = all / (count * static_cast<double>(moves));
    neutral_ = unmoved / count;
  }

  /// Of the notes under a member moved by some steps more than a season moves it.
  double of(const TargetMember& member, const emergence::EmergenceModel* model, int steps) const {
    const MemberFit& fit = season_->members[member.scenario];
    const double fits = fit.model == model ? fitting(fit, steps) : neutral_;
    return (1.0 - outlier_share_) * fits + says_nothing();
  }
  /// Its logarithm, as far as it counts.
  double log_of(const TargetMember& member, const emergence::EmergenceModel* model, int steps) const {
    return power_ * std::log(of(member, model, steps));
  }
  /// The part of it that stands for notes that say nothing.
  double says_nothing() const { return outlier_share_ * anywhere_; }

 private:
  double fitting(const MemberFit& member, int steps) const {
    constexpr auto size = static_cast<int>(moves);
    double sum = 0.0;
    for (int i = 0; i < size; ++i) {
      const auto at = static_cast<std::size_t>(std::clamp(i + steps, 0, size - 1));
      sum += steps_[static_cast<std::size_t>(i)] * std::exp(member.log_likelihood[at] - highest_);
    }
    return sum;
  }

  const EarlierSeason* season_;
  double power_;
  double outlier_share_;
  std::array<double, moves> steps_;
  double highest_ = 0.0;
  double anywhere_ = 0.0;
  double neutral_ = 0.0;
};

/// A member of this season, moved by some steps.
struct Candidate {
  const TargetMember* member = nullptr;
  int steps = 0;
};

std::vector<Candidate> candidates(const TargetRun& run, bool moved) {
  std::vector<Candidate> all;
  for (const TargetMember& member : run.members) {
    for (const int steps : trials) {
      if (steps == 0 || moved) all.push_back({&member, steps});
    }
  }
  return all;
}

/// Their weights by all seasons and by how far they are moved (sum 1).
std::vector<double> weights_of(const std::vector<Candidate>& all, const std::vector<SeasonFit>& fits,
                               const TargetRun& run, double season_sd_days) {
  std::vector<double> logs;
  for (const Candidate& one : all) {
    const double z = one.steps * move_step_days / season_sd_days;
    double sum = -0.5 * z * z;
    for (const SeasonFit& fit : fits)
      sum += fit.log_of(*one.member, run.job.models[one.member->model].model, one.steps);
    logs.push_back(sum);
  }
  return normalized(logs);
}

/// Sum of weights by model.
std::vector<double> by_model(const std::vector<Candidate>& all, const std::vector<double>& weights,
                             std::size_t models) {
  std::vector<double> sums(models);
  for (std::size_t i = 0; i < all.size(); ++i) sums[all[i].member->model] += weights[i];
  return sums;
}

/// Gives each model back a share of the weight it had, evenly over its candidates' own weights.
void keep_models(const std::vector<Candidate>& all, std::vector<double>& weights,
                 const std::vector<double>& before, double kept) {
  const std::vector<double> now = by_model(all, weights, before.size());
  std::vector<double> count(before.size());
  for (const Candidate& one : all) count[one.member->model] += 1.0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::size_t model = all[i].member->model;
    const double wanted = kept * before[model] + (1.0 - kept) * now[model];
    weights[i] = now[model] > 0.0 ? weights[i] * wanted / now[model] : wanted / count[model];
  }
}

std::vector<double> model_shares(const TargetRun& run) {
  std::vector<double> shares(run.job.models.size());
  for (const TargetMember& member : run.members)
    shares[member.model] += 1.0 / static_cast<double>(run.members.size());
  return shares;
}

/// Where a candidate's half stands this season; the season's length where it never comes.
double half_day(const Candidate& one) {
  const auto half = one.member->curve.first_day_reaching(0.5);
  return half ? *half + one.steps * move_step_days : static_cast<double>(one.member->curve.up.size());
}

/// Days the weighted members' half of an earlier season is later than that of all.
double days_later(const EarlierSeason& season, const std::vector<Candidate>& all,
                  const std::vector<double>& weights) {
  double sum = 0.0;
  double weight = 0.0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto& half = season.members[all[i].member->scenario].half;
    if (!half) continue;
    sum += weights[i] * (*half + all[i].steps * move_step_days);
    weight += weights[i];
  }
  double prior = 0.0;
  double count = 0.0;
  for (const MemberFit& member : season.members) {
    if (!member.half) continue;
    prior += *member.half;
    count += 1.0;
  }
  return weight > 0.0 && count > 0.0 ? sum / weight - prior / count : 0.0;
}

LearnedSeason learned_season(const EarlierSeason& season, const SeasonFit& fit, const TargetRun& run,
                             const std::vector<Candidate>& all, const std::vector<double>& weights,
                             double season_sd_days) {
  LearnedSeason result{
      season.season_start, season.site, season.visit_days, season.plots, season.first_seen, 0.0, 0.0};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const TargetMember& member = *all[i].member;
    result.doubt +=
        weights[i] * fit.says_nothing() / fit.of(member, run.job.models[member.model].model, all[i].steps);
  }
  const std::vector<double> alone = weights_of(all, {fit}, run, season_sd_days);
  result.days = days_later(season, all, alone);
  return result;
}

std::vector<LearnedModel> learned_models(const TargetRun& run, const std::vector<Candidate>& all,
                                         const std::vector<double>& weights,
                                         const std::vector<double>& before) {
  const std::vector<double> now = by_model(all, weights, before.size());
  std::vector<double> half_before(before.size());
  std::vector<double> half_now(before.size());
  for (const TargetMember& member : run.members)
    half_before[member.model] += half_day({&member, 0}) / static_cast<double>(run.members.size());
  for (std::size_t i = 0; i < all.size(); ++i)
    half_now[all[i].member->model] += weights[i] * half_day(all[i]);
  std::vector<LearnedModel> models;
  for (std::size_t k = 0; k < before.size(); ++k) {
    const bool there = before[k] > 0.0 && now[k] > 0.0;
    models.push_back({run.job.models[k].model->id, before[k], now[k],
                      there ? half_now[k] / now[k] - half_before[k] / before[k] : 0.0});
  }
  return models;
}

TargetRun drawn_run(const TargetRun& run, const std::vector<Candidate>& all,
                    const std::vector<double>& weights) {
  std::vector<double> half;
  for (const Candidate& one : all) half.push_back(half_day(one));
  std::vector<std::size_t> order(all.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return std::pair{all[a].member->model, half[a]} < std::pair{all[b].member->model, half[b]};
  });
  TargetRun result{run.job, run.season, {}};
  constexpr double middle_of_tooth = 0.5;
  for (const std::size_t i : resampled(weights, order, run.members.size(), middle_of_tooth)) {
    result.members.push_back(*all[i].member);
    if (all[i].steps != 0)
      result.members.back().curve = shifted(all[i].member->curve, all[i].steps * move_step_days);
  }
  reweigh_models(result);
  return result;
}

}  // namespace

EarlierSeason earlier_season(const TargetRun& run, const ScoutingEvidence& evidence) {
  EarlierSeason earlier{run.season.first, {}, evidence.visit_days, evidence.plots, {}, {}};
  if (evidence.first_sight) earlier.first_seen = run.season.first + Days{evidence.first_sight->season_day};
  for (const TargetMember& member : run.members) {
    MemberFit fit{run.job.models[member.model].model, member.curve.first_day_reaching(0.5), {}};
    TargetMember moved = member;
    for (std::size_t i = 0; i < moves; ++i) {
      moved.curve = shifted(member.curve, days_moved(i));
      fit.log_likelihood[i] = log_likelihood(evidence, moved, *run.job.growth);
    }
    earlier.members.push_back(fit);
  }
  return earlier;
}

LearnedRun learned_run(const TargetRun& run, std::span<const EarlierSeason> own,
                       std::span<const EarlierSeason> neighbors, const ScoutingRules& rules) {
  const EarlierSeasonRule& rule = rules.earlier_seasons;
  std::vector<const EarlierSeason*> seasons;
  std::vector<SeasonFit> fits;
  for (const auto& some : {own, neighbors}) {
    for (const EarlierSeason& season : some) {
      seasons.push_back(&season);
      fits.emplace_back(season, rule);
    }
  }
  std::vector<Candidate> all = candidates(run, false);
  std::vector<double> weights = weights_of(all, fits, run, rule.season_sd_days);
  if (effective_size(weights) < rules.counts.least_effective * static_cast<double>(run.members.size())) {
    all = candidates(run, true);
    weights = weights_of(all, fits, run, rule.season_sd_days);
  }
  const std::vector<double> before = model_shares(run);
  keep_models(all, weights, before, rule.weight_kept);
  Learned learned;
  for (std::size_t i = 0; i < seasons.size(); ++i) {
    learned.seasons.push_back(learned_season(*seasons[i], fits[i], run, all, weights, rule.season_sd_days));
    learned.days += days_later(*seasons[i], all, weights) / static_cast<double>(seasons.size());
  }
  learned.models = learned_models(run, all, weights, before);
  return {drawn_run(run, all, weights), std::move(learned)};
}

}  // namespace soilclock::advice
