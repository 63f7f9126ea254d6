// SPDX-License-Identifier: MIT
// What scouting of one season says about a course: visits put in order, and the likelihood of what was found.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "advice/data/count_rule.hpp"
#include "advice/ensemble/target_run.hpp"
#include "advice/scouting/first_seen.hpp"
#include "advice/scouting/plot_counts.hpp"
#include "advice/site/site_log.hpp"

namespace soilclock::advice {

/// One look at one part of the site: which share of the season's seedlings it should have met.
struct Visit {
  int season_day = 0;
  bool fresh = false;  ///< only new plants were counted
  /// New plants have come up since that day; empty: since the season's start.
  std::optional<int> since_season_day;
};

/// A share of the ground judged by eye.
struct GroundLook {
  std::size_t visit = 0;
  double share = 0.0;  ///< 0..1
};

/// The visits to one part of the site, which has a total of its own. The order in which visits were noted is
/// forgotten.
struct ScoutedArea {
  std::string name;  ///< empty: the site as a whole
  std::vector<Visit> visits;
  std::vector<PlotGroup> plots;
  std::vector<GroupSums> sums;  ///< of the plots
  std::vector<GroundLook> looks;
};

/// A stage most of the plants were in on a season day.
struct StageLook {
  int season_day = 0;
  SeenStage stage = SeenStage::leaves_1_3;
};

/// The season day the first seedlings were noted for.
struct FirstSight {
  int season_day = 0;
  FirstSeenRule rule;
};

struct ScoutingEvidence {
  CountRule rule;
  CountPriors priors;
  std::vector<ScoutedArea> areas;
  std::vector<StageLook> stages;
  std::optional<FirstSight> first_sight;
  int visit_days = 0;
  int plots = 0;
  long plants = 0;
  bool plot_size_guessed = false;  ///< some counts came without the area of a plot
};

/// Sorts the counts into visits. New plants count since the last look at new plants in the same area, else
/// since the season's start; all others are what stands, as nothing is known of plants that died.
ScoutingEvidence scouting_evidence(std::span<const LoggedCount> counts, const Season& season,
                                   const CountRule& rule);

/// The share of the season's seedlings a visit should have met in a course: as of noon, halfway between the
/// share up at the end of the day before and at the end of the day.
double share_met(const emergence::EmergenceCurve& curve, const Visit& visit);
std::vector<double> shares_met(const ScoutedArea& area, const emergence::EmergenceCurve& curve);

/// Logarithm of how likely everything found is under a member.
/// - Counts: see CurveMeans.
/// - Ground judged by eye: the sum of the plants' areas (minus the logarithm of the bare share, for plants
/// thrown at
///   random) is the share up times an unknown full cover, log-normal, and a look is off by look_log_sd in the
///   logarithm; that plants grow between looks is not followed. None seen means under least_seen.
/// - Stage: the share of the member's plants that are in it, but for looks that misjudge.
/// - First sight: see first_seen_log_likelihood.
double log_likelihood(const ScoutingEvidence& evidence, const TargetMember& member,
                      const emergence::GrowthModel& growth);

}  // namespace soilclock::advice
