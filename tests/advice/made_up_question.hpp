// SPDX-License-Identifier: MIT
// A question about the made-up season, with what a user may say about the site.
#pragma once

#include "decision_tables.hpp"
#include "made_up_season.hpp"

namespace soilclock::tests {

inline const Day asked_on = make_day(2020, 10, 20);

/// Twelve members of the season asked about.
inline const MadeUpSeason& made_up() {
  static const MadeUpSeason season{asked_on, 12};
  return season;
}

/// What a user may say about the made-up site.
struct Said {
  treatment::TankPlan plan;
  treatment::ResistantShares resistant;
  advice::TurfFacts turf_facts;
  std::optional<treatment::TurfAssessment> turf;
  advice::SiteLog log;
  advice::SiteWeather site = made_up().site;
  advice::TargetAnswer answer = {};

  Said() { site.on = asked_on; }

  advice::DecisionInputs inputs() const {
    return {&made_up().run(),
            &made_up().runs,
            &made_up().scenarios,
            &shipped_catalogue(),
            &site,
            &log,
            &turf_facts,
            &turf,
            &plan,
            &resistant,
            1,
            {},
            false};
  }
  const advice::TargetAnswer& answered() {
    advice::decide_target(answer, inputs());
    return answer;
  }
  Weeks table() const {
    Weeks weeks;
    for (const advice::WeekRow& row : answer.weeks) weeks.push_back(row.week);
    return weeks;
  }
};

}  // namespace soilclock::tests
