// SPDX-License-Identifier: MIT
// The weeks table of possible seasons that a test has made itself.
#pragma once

#include <numeric>
#include <vector>

#include "advice/decision/season_control.hpp"
#include "core/random.hpp"
#include "decision_tables.hpp"

namespace soilclock::tests {

/// Mondays from one day to another, the first one on or after `from`.
inline std::vector<Day> mondays(Day from, Day to) {
  std::vector<Day> days;
  for (Day day = monday_of(from + Days{6}); day <= to; day += Days{7}) days.push_back(day);
  return days;
}

/// What annual bluegrass's files say of a treatment.
inline treatment::TreatmentRules bluegrass_rules() {
  const advice::Catalogue& catalogue = shipped_catalogue();
  return {&catalogue.control_of("POAAN"), &catalogue.mixture, &catalogue.residual};
}

inline treatment::TreatmentParts unnamed_bluegrass_parts() {
  return treatment::unnamed_parts(shipped_catalogue().control_of("POAAN"));
}

/// The table of a treatment of annual bluegrass over possible seasons; nothing is gated.
inline Weeks control_table(std::span<const treatment::SeasonCohorts> members,
                           const treatment::TreatmentParts& parts, std::span<const Day> treated) {
  const treatment::TreatmentRules rules = bluegrass_rules();
  const RandomField random{20240607};
  advice::MemberPoints points(treated.size());
  for (std::size_t member = 0; member < members.size(); ++member) {
    const auto drawn = treatment::draw_treatment(random, member, parts, rules);
    const treatment::ExpectedControl control{members[member], drawn, *rules.grass, *rules.residual};
    for (std::size_t week = 0; week < treated.size(); ++week) {
      const auto shares = control.on(treated[week]);
      for (std::size_t kind = 0; kind < shares.size(); ++kind)
        points[week][kind].push_back(100.0 * shares[kind]);
    }
  }
  std::vector<std::size_t> all(members.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  return advice::weeks_of(points, treated, all);
}

/// The best week of a kind in a table, the earliest on a tie, and its score.
struct BestWeek {
  Day week_of{};
  double score = -1.0;
};

inline BestWeek best_week(const Weeks& table, treatment::Kind kind) {
  BestWeek best;
  for (const advice::TreatmentWeek& week : table) {
    if (week.score(kind).value_or(-1.0) > best.score) best = {week.week_of, *week.score(kind)};
  }
  return best;
}

inline const advice::TreatmentWeek& week_of(const Weeks& table, Day day) {
  for (const advice::TreatmentWeek& week : table) {
    if (week.week_of == day) return week;
  }
  throw std::out_of_range{"no such week: " + iso(day)};
}

}  // namespace soilclock::tests
