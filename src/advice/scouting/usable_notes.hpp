// SPDX-License-Identifier: MIT
// Which notes of seedlings speak about a season.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/data/scouting_rules.hpp"
#include "advice/scouting/scouting_evidence.hpp"
#include "advice/site/site_log.hpp"
#include "core/season.hpp"

namespace soilclock::advice {

/// Counts and the earliest note of first seedlings of one target and season.
struct UsableNotes {
  std::vector<LoggedCount> counts;
  std::optional<Day> first_seen;
  int left_out = 0;            ///< notes made after the treatment
  std::optional<Day> treated;  ///< the season's first application

  bool none() const { return counts.empty() && !first_seen; }
};

/// What the log holds of a target (EPPO code) and season, dated before `on`. What is dated after an
/// application of the season is left out: what it killed or kept down would look like seedlings still to
/// come.
UsableNotes usable_notes(const std::string& target, const Season& season, const SiteLog& log, Day on);

/// The notes in order, for likelihoods.
ScoutingEvidence evidence_of(const UsableNotes& notes, const Season& season, const ScoutingRules& rules);

}  // namespace soilclock::advice
