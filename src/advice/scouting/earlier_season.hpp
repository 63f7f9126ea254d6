// SPDX-License-Identifier: MIT
// What earlier seasons teach about the members at a site: those that would have brought forth what was noted
// then are kept for this season, the others thinned out.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "advice/data/scouting_rules.hpp"
#include "advice/ensemble/target_run.hpp"
#include "advice/scouting/scouting_evidence.hpp"

namespace soilclock::advice {

/// Days by which courses of earlier seasons are moved: even steps on either side of 0, as far as a season
/// noted under a wrong date may lie.
inline constexpr int move_step_days = 4;
inline constexpr int moves_a_side = 7;
inline constexpr std::size_t moves = 2 * moves_a_side + 1;

/// How well a member's course of an earlier season fits the notes of it.
struct MemberFit {
  const emergence::EmergenceModel* model = nullptr;  ///< the one it was dealt then
  std::optional<int> half;                           ///< its season day of 50 percent
  std::array<double, moves> log_likelihood{};        ///< moved from earliest to latest
};

/// An earlier season of a target with notes.
struct EarlierSeason {
  Day season_start{};
  std::string site;  ///< id of the neighbor it was noted at; empty: the site itself
  int visit_days = 0;
  int plots = 0;
  std::optional<Day> first_seen;
  std::vector<MemberFit> members;  ///< by member of the scenarios
};

/// The earlier seasons of one target.
struct TargetSeasons {
  std::string target;  ///< EPPO code
  std::vector<EarlierSeason> seasons;
};

/// A season already run, held against what was noted of it.
EarlierSeason earlier_season(const TargetRun& run, const ScoutingEvidence& evidence);

/// What was learned about a component model.
struct LearnedModel {
  std::string id;
  double weight_before = 0.0;
  double weight = 0.0;
  double days = 0.0;  ///< its members' day of 50 percent this season, later than before (negative: earlier)
};

/// What one season contributed.
struct LearnedSeason {
  Day season_start{};
  std::string site;  ///< as in EarlierSeason
  int visit_days = 0;
  int plots = 0;
  std::optional<Day> first_seen;
  double days = 0.0;   ///< later than the models said, by its own notes
  double doubt = 0.0;  ///< probability that its notes say nothing, 0..1
};

/// What a target's earlier seasons teach.
struct Learned {
  std::vector<LearnedSeason> seasons;  ///< own first, then by site; oldest first
  std::vector<LearnedModel> models;    ///< as in the job
  double days = 0.0;                   ///< later than the models said, over the seasons by all notes
  std::string text;                    ///< all of it in a few sentences, see learned_words
};

/// The run as earlier seasons leave it: as many members, equally likely.
struct LearnedRun {
  TargetRun run;
  Learned learned;
};

/// Bayes' rule over the members of a run. A member keeps its model, its parameters and the lasting parts of
/// its soil error over the seasons: `run` and the seasons are drawn with the same seed and number of members.
/// The prior is the ensemble itself; a season's likelihood for a member is that of the notes under its course
/// of that season, moved by what a season (or a neighbor) moves it beyond that, but for seasons that say
/// nothing; that of a neighbor is taken to a power below 1 (the power prior of Ibrahim & Chen 2000,
/// Statistical Science 15:46-60; cited from memory). A member that was dealt another model then neither gains
/// nor loses. Fewer members left in effect than CountRule::least_effective: each is tried moved by some days,
/// the same in all seasons, too. `own` and `neighbors` may not both be empty, nor the run.
LearnedRun learned_run(const TargetRun& run, std::span<const EarlierSeason> own,
                       std::span<const EarlierSeason> neighbors, const ScoutingRules& rules);

}  // namespace soilclock::advice
