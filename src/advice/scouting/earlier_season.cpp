// SPDX-License-Identifier: MIT
#include "advice/scouting/earlier_season.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "advice/scouting/resampling.hpp"

namespace soilclock::advice {

namespace {

/// A function of days moved, from -reach to reach.
using ByDays = std::vector<double>;

constexpr double least_sd_days = 0.5;  // of a part that is there: a grid of days knows no less

/// Days of a place on the grid.
double days_at(const ByDays& grid, std::size_t i) {
  return static_cast<double>(i) - 0.5 * static_cast<double>(grid.size() - 1);
}

double sum_of(const ByDays& values) {
  double sum = 0.0;
  for (const double value : values) sum += value;
  return sum;
}

/// Probabilities of a normal with mean 0 on a grid of that size; sum 1.
ByDays normal(double variance, std::size_t size) {
  ByDays values(size);
  const double sd = std::max(least_sd_days, std::sqrt(variance));
  for (std::size_t i = 0; i < size; ++i) {
    const double z = days_at(values, i) / sd;
    values[i] = std::exp(-0.5 * z * z);
  }
  const double sum = sum_of(values);
  for (double& value : values) value /= sum;
  return values;
}

/// The mean of `of` around each day, weighed by `weights` (symmetric, sum 1); the ends go on beyond the grid.
ByDays smoothed(const ByDays& of, const ByDays& weights) {
  const auto size = static_cast<int>(of.size());
  ByDays result(of.size());
  for (int i = 0; i < size; ++i) {
    for (int j = 0; j < size; ++j) {
      const int at = std::clamp(i + j - size / 2, 0, size - 1);
      result[static_cast<std::size_t>(i)] +=
          weights[static_cast<std::size_t>(j)] * of[static_cast<std::size_t>(at)];
    }
  }
  return result;
}

ByDays times(ByDays a, const ByDays& b) {
  for (std::size_t i = 0; i < a.size(); ++i) a[i] *= b[i];
  return a;
}

/// A distribution over days with the logarithm of what it was divided by.
struct Known {
  ByDays density;
  double log_evidence = 0.0;
};

Known scaled(ByDays values) {
  const double sum = sum_of(values);
  for (double& value : values) value /= sum;
  return {std::move(values), std::log(sum)};
}

double mean_of(const ByDays& density) {
  double mean = 0.0;
  for (std::size_t i = 0; i < density.size(); ++i) mean += density[i] * days_at(density, i);
  return mean;
}

double variance_of(const ByDays& density) {
  const double mean = mean_of(density);
  double sum = 0.0;
  for (std::size_t i = 0; i < density.size(); ++i)
    sum += density[i] * (days_at(density, i) - mean) * (days_at(density, i) - mean);
  return sum;
}

/// The likelihoods of one season, scaled by the highest of all models.
class SeasonLikelihood {
 public:
  SeasonLikelihood(const EarlierSeason& season) : season_{&season} {
    highest_ = -1e300;
    for (const EarlierModel& model : season.models)
      highest_ = std::max(highest_, *std::max_element(model.log_likelihood.begin(), model.log_likelihood.end()));
    double sum = 0.0;
    for (const EarlierModel& model : season.models) {
      const ByDays of = scaled_of(model);
      size_ = of.size();
      sum += sum_of(times(of, normal(model.sd_days * model.sd_days, size_)));
    }
    neutral_ = sum / static_cast<double>(season.models.size());
  }

  ByDays of(const std::string& id) const {
    const EarlierModel* model = find(id);
    return model != nullptr ? scaled_of(*model) : ByDays(size_, neutral_);
  }

  const EarlierModel* find(const std::string& id) const {
    for (const EarlierModel& model : season_->models) {
      if (model.model == id) return &model;
    }
    return nullptr;
  }

 private:
  ByDays scaled_of(const EarlierModel& model) const {
    ByDays values;
    for (const double log_value : model.log_likelihood) values.push_back(std::exp(log_value - highest_));
    return values;
  }

  const EarlierSeason* season_;
  double highest_ = 0.0;
  double neutral_ = 0.0;
  std::size_t size_ = 0;
};

/// A model's variances and what the seasons say of it.
class ModelError {
 public:
  ModelError(const std::string& id, std::span<const EarlierSeason> own,
             std::span<const EarlierSeason> neighbors, const EarlierSeasonRule& rule)
      : rule_{&rule}, size_{static_cast<std::size_t>(2 * rule.reach_days + 1)} {
    int seasons = 0;
    for (const auto& all : {own, neighbors}) {
      for (const EarlierSeason& season : all) {
        const EarlierModel* model = SeasonLikelihood{season}.find(id);
        if (model == nullptr) continue;
        variance_ += model->sd_days * model->sd_days;
        ++seasons;
      }
    }
    if (seasons > 0) variance_ /= seasons;
    of_season_ = normal((1.0 - rule.site_share) * variance_, size_);
    learn(id, own, neighbors);
  }

  double variance() const { return variance_; }
  double season_variance() const { return (1.0 - rule_->site_share) * variance_; }
  const ByDays& site() const { return site_; }
  double log_evidence() const { return log_evidence_; }

  /// What the error of the site's part looks like to one season's notes; and how much of it is the chance
  /// that they say nothing.
  struct Told {
    ByDays likelihood;
    double nothing = 0.0;
  };
  Told told(const ByDays& likelihood) const {
    const double nothing = rule_->outlier_share * sum_of(likelihood) / static_cast<double>(size_);
    ByDays values = smoothed(likelihood, of_season_);
    for (double& value : values) value = (1.0 - rule_->outlier_share) * value + nothing;
    return {std::move(values), nothing};
  }

 private:
  void learn(const std::string& id, std::span<const EarlierSeason> own,
             std::span<const EarlierSeason> neighbors) {
    const double lasting = rule_->site_share * variance_;
    const ByDays of_site = normal((1.0 - rule_->group_share) * lasting, size_);
    Known group{normal(rule_->group_share * lasting, size_), 0.0};
    for (std::size_t i = 0; i < neighbors.size();) {
      ByDays of_neighbor(size_, 1.0);
      const std::string& site = neighbors[i].site;
      for (; i < neighbors.size() && neighbors[i].site == site; ++i)
        of_neighbor = times(std::move(of_neighbor), told(SeasonLikelihood{neighbors[i]}.of(id)).likelihood);
      const double before = group.log_evidence;
      group = scaled(times(std::move(group.density), smoothed(of_neighbor, of_site)));
      group.log_evidence += before;
    }
    site_ = neighbors.empty() ? normal(lasting, size_) : smoothed(group.density, of_site);
    log_evidence_ = rule_->group_share * group.log_evidence;
    for (const EarlierSeason& season : own) {
      Known known = scaled(times(std::move(site_), told(SeasonLikelihood{season}.of(id)).likelihood));
      site_ = std::move(known.density);
      log_evidence_ += known.log_evidence;
    }
  }

  const EarlierSeasonRule* rule_;
  std::size_t size_;
  double variance_ = 0.0;
  ByDays of_season_;
  ByDays site_;
  double log_evidence_ = 0.0;
};

/// A season's days later than the models said, and the doubt, over the models by their new weights.
LearnedSeason learned_season(const EarlierSeason& season, const std::vector<ModelError>& errors,
                             const std::vector<LearnedModel>& models) {
  LearnedSeason result{season.season_start, season.site,       season.visit_days, season.plots,
                       season.first_seen,   0.0,               0.0};
  const SeasonLikelihood likelihood{season};
  for (std::size_t k = 0; k < models.size(); ++k) {
    const ByDays of = likelihood.of(models[k].model);
    const ModelError::Told told = errors[k].told(of);
    for (std::size_t i = 0; i < of.size(); ++i)
      result.doubt += models[k].weight * errors[k].site()[i] * told.nothing / told.likelihood[i];
    result.days += models[k].weight * mean_of(scaled(times(of, normal(errors[k].variance(), of.size()))).density);
  }
  return result;
}

/// A member's day of 50 percent, where it comes.
std::optional<double> half_day(const TargetMember& member) {
  const auto day = member.curve.first_day_reaching(0.5);
  return day ? std::optional<double>{*day} : std::nullopt;
}

struct Mean {
  double sum = 0.0;
  double count = 0.0;
  void add(double value) {
    sum += value;
    count += 1.0;
  }
  double value() const { return count > 0.0 ? sum / count : 0.0; }
};

/// What each member of a model's day is off, its weather's part taken out: the means over the members of one
/// course of weather, drawn toward that of all by how little few members tell (the variances by the method of
/// moments).
class OwnParts {
 public:
  OwnParts(const TargetRun& run, std::size_t model, const std::vector<std::size_t>& course_of)
      : course_of_{&course_of} {
    for (const TargetMember& member : run.members) {
      const auto half = half_day(member);
      if (member.model != model || !half) continue;
      all_.add(*half);
      courses_[course_of[member.scenario]].add(*half);
    }
    double within = 0.0;
    for (const TargetMember& member : run.members) {
      const auto half = half_day(member);
      if (member.model != model || !half) continue;
      const double off = *half - courses_.at(course_of[member.scenario]).value();
      within += off * off;
    }
    const auto groups = static_cast<double>(courses_.size());
    within_ = all_.count > groups ? within / (all_.count - groups) : 0.0;
    if (groups < 2.0) return;
    double between = 0.0;
    double squares = 0.0;
    for (const auto& [course, mean] : courses_) {
      between += mean.count * (mean.value() - all_.value()) * (mean.value() - all_.value());
      squares += mean.count * mean.count;
    }
    const double usual_count = (all_.count - squares / all_.count) / (groups - 1.0);
    between_ = std::max(0.0, (between / (groups - 1.0) - within_) / usual_count);
  }

  double of(const TargetMember& member) const {
    const auto half = half_day(member);
    if (!half) return 0.0;
    const Mean& course = courses_.at((*course_of_)[member.scenario]);
    const double noise = within_ / course.count;
    const double believed = between_ > 0.0 ? between_ / (between_ + noise) : 0.0;
    return *half - all_.value() - believed * (course.value() - all_.value());
  }

 private:
  const std::vector<std::size_t>* course_of_;
  Mean all_;
  std::map<std::size_t, Mean> courses_;
  double within_ = 0.0;
  double between_ = 0.0;
};

/// The members by model, within it by their date of 50 percent: along that the comb is laid.
std::vector<std::size_t> by_model_and_date(const std::vector<TargetMember>& members) {
  std::vector<std::size_t> order(members.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto half = [](const TargetMember& member) {
    return half_day(member).value_or(static_cast<double>(member.curve.up.size()));
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (members[a].model != members[b].model) return members[a].model < members[b].model;
    return half(members[a]) < half(members[b]);
  });
  return order;
}

}  // namespace

Learned learned_from(std::span<const EarlierSeason> own, std::span<const EarlierSeason> neighbors,
                     const TargetJob& job, const EarlierSeasonRule& rule) {
  Learned learned;
  std::vector<ModelError> errors;
  std::vector<double> log_weights;
  for (const WeightedModel& weighted : job.models) {
    const ModelError& error = errors.emplace_back(weighted.model->id, own, neighbors, rule);
    log_weights.push_back(std::log(weighted.weight) + error.log_evidence());
    learned.models.push_back({weighted.model->id, weighted.weight, 0.0, std::sqrt(error.variance()),
                              mean_of(error.site()),
                              std::sqrt(variance_of(error.site()) + error.season_variance())});
  }
  const std::vector<double> weights = normalized(log_weights);
  for (std::size_t k = 0; k < weights.size(); ++k) {
    LearnedModel& model = learned.models[k];
    model.weight = rule.weight_kept * model.weight_before + (1.0 - rule.weight_kept) * weights[k];
    learned.days += model.weight * model.days;
  }
  for (const auto& all : {own, neighbors}) {
    for (const EarlierSeason& season : all)
      learned.seasons.push_back(learned_season(season, errors, learned.models));
  }
  return learned;
}

TargetRun learned_run(const TargetRun& run, const Learned& learned,
                      const std::vector<std::size_t>& course_of) {
  const std::size_t size = run.members.size();
  std::vector<double> counts(run.job.models.size());
  std::vector<OwnParts> parts;
  for (const TargetMember& member : run.members) counts[member.model] += 1.0;
  for (std::size_t k = 0; k < counts.size(); ++k) parts.emplace_back(run, k, course_of);
  double dealt = 0.0;  // models without a member cannot gain
  for (std::size_t k = 0; k < counts.size(); ++k) dealt += counts[k] > 0.0 ? learned.models[k].weight : 0.0;
  std::vector<double> weights;
  for (const TargetMember& member : run.members)
    weights.push_back(learned.models[member.model].weight / (counts[member.model] * dealt));
  TargetRun result{run.job, run.season, {}};
  constexpr double middle_of_tooth = 0.5;
  for (const std::size_t i : resampled(weights, by_model_and_date(run.members), size, middle_of_tooth)) {
    const TargetMember& member = run.members[i];
    const LearnedModel& model = learned.models[member.model];
    const double kept = model.sd_before > 0.0 ? model.sd / model.sd_before : 1.0;
    const double days = model.days + (kept - 1.0) * parts[member.model].of(member);
    result.members.push_back(member);
    result.members.back().curve = shifted(member.curve, static_cast<int>(std::lround(days)));
  }
  reweigh_models(result);
  return result;
}

}  // namespace soilclock::advice
