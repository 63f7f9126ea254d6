// SPDX-License-Identifier: MIT
#include "advice/scouting/usable_notes.hpp"

namespace soilclock::advice {

UsableNotes usable_notes(const std::string& target, const Season& season, const SiteLog& log, Day on) {
  UsableNotes usable;
  for (const SiteApplication& noted : log.applications) {
    const Day day = noted.day;
    if (season.days().contains(day) && (!usable.treated || day < *usable.treated)) usable.treated = day;
  }
  const auto in_question = [&](const std::string& code, Day day) {
    return code == target && day < on && season.days().contains(day);
  };
  const auto too_late = [&](Day day) { return usable.treated && day > *usable.treated; };
  for (const LoggedCount& count : log.counts) {
    if (!in_question(count.target, count.day)) continue;
    if (too_late(count.day)) {
      ++usable.left_out;
    } else {
      usable.counts.push_back(count);
    }
  }
  for (const LoggedFirstSeen& seen : log.first_seen) {
    if (!in_question(seen.target, seen.day)) continue;
    if (!usable.first_seen || seen.day < *usable.first_seen) usable.first_seen = seen.day;
  }
  if (usable.first_seen && too_late(*usable.first_seen)) {
    usable.first_seen.reset();
    ++usable.left_out;
  }
  return usable;
}

ScoutingEvidence evidence_of(const UsableNotes& notes, const Season& season, const ScoutingRules& rules) {
  ScoutingEvidence evidence = scouting_evidence(notes.counts, season, rules.counts);
  if (notes.first_seen)
    evidence.first_sight = FirstSight{season.day_of_season(*notes.first_seen), rules.first_seen};
  return evidence;
}

}  // namespace soilclock::advice
