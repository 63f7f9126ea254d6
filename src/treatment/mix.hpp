// SPDX-License-Identifier: MIT
// How many sites of action of a plan count on the plants that are up and on those to come, and how diverse
// the plan is. It judges a plan; it never proposes an active.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/dates.hpp"
#include "core/temperature.hpp"
#include "treatment/actives.hpp"
#include "treatment/mixture.hpp"

namespace soilclock::treatment {

/// From least to most, where something is not known; both equal where it is.
struct ScoreRange {
  double least = 0.0;
  double most = 0.0;
  friend bool operator==(const ScoreRange&, const ScoreRange&) = default;
};

/// What is known of a group at the site or in its region.
enum class GroupStatus {
  effective,            ///< believed to work here: counts 1
  resistant_in_region,  ///< not tested here, resistant populations described in the region: counts one half
  failed_here           ///< confirmed failure: counts 0
};

/// When the plan's date falls.
enum class PlanTiming { inside_window, within_a_week, outside_window };

/// The main spray of a season and what belongs to it; everything optional is "not known" when empty.
struct MixPlan {
  std::vector<PlanEntry> entries;
  std::optional<emergence::StageClass>
      oldest_cohort;                       ///< stage of the oldest cohort that matters on the date
  std::optional<Temperature> day_maximum;  ///< expected mean maximum of the days after
  std::optional<PlanTiming> timing;
  std::optional<bool> escapes_planned;  ///< survivors dealt with before seedheads, with a date
  std::optional<int> other_practices;   ///< non-chemical practices followed, 0 to 5
};

/// A spray of an earlier season.
struct PastSpray {
  int seasons_ago = 1;  ///< 1: last season
  std::vector<int> groups;
};

struct SiteHistory {
  std::vector<PastSpray> sprays;
  int seasons_known = 0;              ///< how many seasons back the record is complete; 0: none
  std::map<int, GroupStatus> status;  ///< groups without an entry are not known
};

/// How one group counts.
struct GroupCount {
  int group = 0;
  ScoreRange emerged;  ///< 0..1 on plants that are up
  ScoreRange to_come;  ///< 0..1 on plants to come
  std::vector<std::string> entries;
  std::string why;
};

struct ScoreLine {
  std::string item;
  ScoreRange points;
  double of = 0.0;
  std::string why;
};

/// A group of the plan used in earlier seasons.
struct RepeatedGroup {
  int group = 0;
  std::vector<int> seasons_ago;  ///< rising
};

struct MixScore {
  std::vector<GroupCount> groups;   ///< each group once, by number
  ScoreRange effective_on_emerged;  ///< sum over groups
  ScoreRange effective_on_to_come;
  std::vector<RepeatedGroup> repeats;
  std::vector<ScoreLine> lines;
  ScoreRange total;                ///< 0..100
  std::string grade;               ///< in words; both ends where they differ
  std::vector<std::string> flags;  ///< one plain sentence each
};

/// Scores a plan against a site. Actives of one group count once, whatever their number, since resistance
/// goes with the site of action (prodiamine and pronamide: osburn-2024). An empty plan scores what its
/// unknowns leave. Adding an effective group never lowers the score. Weights are judgment: mixtures over
/// rotation follows evans-2016.
MixScore score_mix(const MixPlan& plan, const SiteHistory& history, const Actives& actives,
                   const MixtureRule& rule);

}  // namespace soilclock::treatment
