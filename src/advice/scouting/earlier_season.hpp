// SPDX-License-Identifier: MIT
// What earlier seasons teach about the component models at a site: how far each is off in days, and how far
// it is to be believed.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "advice/data/earlier_season_rule.hpp"
#include "advice/ensemble/target_run.hpp"

namespace soilclock::advice {

/// How well a component model's course of an earlier season, moved by some days, fits the notes of it.
struct EarlierModel {
  std::string model;                   ///< its id
  double sd_days = 0.0;                ///< of its members' days of 50 percent, the weather known
  std::vector<double> log_likelihood;  ///< by days moved, from -reach_days to reach_days
};

/// An earlier season of a target with notes.
struct EarlierSeason {
  Day season_start{};
  std::string site;  ///< id of the neighbor it was noted at; empty: the site itself
  int visit_days = 0;
  int plots = 0;
  bool first_seen = false;
  std::vector<EarlierModel> models;
};

/// The earlier seasons of one target.
struct TargetSeasons {
  std::string target;  ///< EPPO code
  std::vector<EarlierSeason> seasons;
};

/// What was learned about a component model. Days later are positive.
struct LearnedModel {
  std::string model;
  double weight_before = 0.0;
  double weight = 0.0;
  double sd_before = 0.0;  ///< of the model's error, days
  double days = 0.0;       ///< that the site is later than the model says
  double sd = 0.0;         ///< of the model's error once it is moved
};

/// What one season contributed.
struct LearnedSeason {
  Day season_start{};
  std::string site;  ///< as in EarlierSeason
  int visit_days = 0;
  int plots = 0;
  bool first_seen = false;
  double days = 0.0;   ///< later than the models said, by its own notes
  double doubt = 0.0;  ///< probability that its notes say nothing, 0..1
};

/// What a target's earlier seasons teach.
struct Learned {
  std::vector<LearnedSeason> seasons;  ///< own first, then by site; oldest first
  std::vector<LearnedModel> models;    ///< as in the job
  double days = 0.0;                   ///< that the site is later than the models said, by their new weights
};

/// Bayes' rule on the error of each component model, D = part of the site + part of the season, both normal
/// with mean 0. Their variances are shares of the model's own, the mean over the seasons. A season says
/// nothing with the probability outlier_share. What a site has is part of its group plus a part of its own:
/// seasons of neighbors speak about the first only, and count for the models' weights by that share. A model
/// that a season was not run for neither gains nor loses by it. `own` and `neighbors` may not both be empty.
Learned learned_from(std::span<const EarlierSeason> own, std::span<const EarlierSeason> neighbors,
                     const TargetJob& job, const EarlierSeasonRule& rule);

/// The run as it is after what was learned: as many members, dealt to the models by their new weights, each
/// moved by its model's days and nearer to it by what is no longer unknown. `course_of` says which course of
/// the weather a member of the scenarios lives through: what the weather to come leaves open stays.
TargetRun learned_run(const TargetRun& run, const Learned& learned,
                      const std::vector<std::size_t>& course_of);

}  // namespace soilclock::advice
