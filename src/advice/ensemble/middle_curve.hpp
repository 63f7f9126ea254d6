// SPDX-License-Identifier: MIT
// The middle course of a season's emergence, as steep as the component models themselves: their dates are
// averaged, not their percents, and small changes of a weight move it little.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "advice/ensemble/target_run.hpp"

namespace soilclock::advice {

/// For each share up, the mean over the component models, by their members, of the day on which the middle of
/// the model's own members reaches it (the mean of quantile functions, Ratcliff 1979, Psychological Bulletin
/// 86:446-461; cited from memory). A run without members has no middle.
class MiddleCurve {
 public:
  /// `run` must outlive this.
  explicit MiddleCurve(const TargetRun& run);

  /// Share up at the end of a season day: 0 before the season.
  double at(int season_day) const;
  /// First season day at whose end this share (0..1) is up; nothing where half of the members' models never
  /// get there.
  std::optional<int> first_day_reaching(double share) const;

  /// The middle of one component model's members.
  class ModelCurve {
   public:
    ModelCurve(const TargetRun& run, std::size_t model, std::vector<std::size_t> members);
    std::size_t model() const { return model_; }  ///< index into TargetJob::models
    double weight() const { return weight_; }     ///< share of the members
    /// Season day, with its fraction, on which this share is reached; nothing in a season without it.
    std::optional<double> day_reaching(double share) const;

   private:
    double up(std::size_t day) const;

    const TargetRun* run_;
    std::size_t model_;
    std::vector<std::size_t> members_;
    double weight_;
    mutable std::vector<double> up_;  // by season day; not-a-number: not asked for yet, as most never are
  };
  std::span<const ModelCurve> models() const { return models_; }

 private:
  std::optional<double> day_reaching(double share) const;

  std::vector<ModelCurve> models_;
  int season_days_ = 0;
};

/// The mean over the component models, by their members, of the middle of a day that each member has or
/// lacks; nothing where half of the members' models lack it.
std::optional<int> middle_over_models(const TargetRun& run,
                                      const std::vector<std::optional<int>>& day_by_member);

}  // namespace soilclock::advice
