// SPDX-License-Identifier: MIT
// Counts in the field move the site's own emergence curve: members that would have brought forth what was
// found are kept, the others thinned out.
#pragma once

#include "advice/data/scouting_rules.hpp"
#include "advice/ensemble/target_run.hpp"
#include "advice/scouting/scouting_evidence.hpp"
#include "advice/site/site_log.hpp"
#include "core/remark.hpp"

namespace soilclock::advice {

/// What scouting made of a target's members.
struct ScoutedRun {
  std::optional<TargetRun>
      run;  ///< equally likely members again, as many as before; empty when nothing noted could be used
  ScoutingEvidence evidence;
  double effective_members = 0.0;  ///< how many of the members the counts left, before any were moved
  bool moved = false;              ///< too few were left, and members moved by some days joined them
  std::vector<Remark> remarks;
};

/// Weighs the members of a run by what the log holds of its target and season dated before `on`, counts and
/// the earliest note of first seedlings, and draws as many by these weights, in their old order. None found
/// counts as much as any other number. What is dated after an application of this season is left out, with a
/// remark: what it killed or kept down would look like seedlings still to come. Fewer members left in
/// effect than CountRule::least_effective: each is tried up to a week earlier and later, too, and the draw is
/// made among all of these. The same seed gives the same draw. A series that shows no rise may be a wave that
/// is over or one that has hardly begun: the total is unknown, the counts cannot tell, and only the season's
/// weather decides between the two.
ScoutedRun scouted_run(const TargetRun& run, const SiteLog& log, Day on, const ScoutingRules& rules,
                       std::uint64_t seed, bool us_units = false);

/// Adds a remark when the counts of an area, of two or more visits, run as hardly any series under the run's
/// own members would; see PosteriorCheck for what it can and cannot tell. `run` is the one before its members
/// were weighed.
void judge_counts(ScoutedRun& scouted, const TargetRun& run, std::uint64_t seed);

}  // namespace soilclock::advice
