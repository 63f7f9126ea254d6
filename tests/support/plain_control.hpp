// SPDX-License-Identifier: MIT
// Expected control the long way round: cohort by cohort and day by day, without prefix sums or shared tables.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "treatment/expected_control.hpp"

namespace soilclock::tests {

/// Half-lives of one residual from the day after it goes down to a day, both as day indices.
inline double plain_half_lives(const treatment::SeasonCohorts& season, const treatment::ResidualDraw& part,
                               long applied, long to, const treatment::ResidualRule& rule) {
  const double half_life = part.weeks * 7.0 / rule.half_lives_of_use;
  double half_lives = 0.0;
  for (long day = applied + 1; day <= to; ++day) {
    half_lives += treatment::decay_factor(season.soil[static_cast<std::size_t>(day)],
                                          part.activation_energy_j_per_mol, rule) /
                  half_life;
  }
  return half_lives;
}

/// Share of the seedlings of a day to come that the residuals of a treatment stop.
inline double plain_stopped(const treatment::SeasonCohorts& season, const treatment::DrawnTreatment& drawn,
                            long applied, long day, const treatment::ResidualRule& rule) {
  double passes = 1.0;
  for (const treatment::ResidualDraw& part : drawn.residuals) {
    const double dose = std::pow(2.0, -plain_half_lives(season, part, applied, day, rule));
    const double effect = std::pow(dose, 3) / (std::pow(dose, 3) + std::pow(rule.dose_of_half_efficacy, 3));
    passes *= 1.0 - part.works * effect;
  }
  return 1.0 - passes;
}

/// What cold days leave of foliar action from one day on.
inline double plain_warmth_on(const treatment::SeasonCohorts& season, const treatment::GrassControl& grass,
                              long day) {
  if (!grass.warmth) return 1.0;
  double sum = 0.0;
  int days = 0;
  for (long i = day; i < day + grass.warmth->days && i < static_cast<long>(season.air_max.size()); ++i) {
    sum += season.air_max[static_cast<std::size_t>(i)].celsius();
    ++days;
  }
  return treatment::warmth_factor(Temperature::from_celsius(sum / days), *grass.warmth);
}

/// The most that is left of it from one of several days on, as far as the season goes.
inline double plain_warmth(const treatment::SeasonCohorts& season, const treatment::GrassControl& grass,
                           long day, int days) {
  std::vector<double> left;
  for (long i = day; i < day + days && i < static_cast<long>(season.air_max.size()); ++i)
    left.push_back(plain_warmth_on(season, grass, i));
  return *std::max_element(left.begin(), left.end());
}

/// The number of the stage of a plant of an age; one exactly at a limit is past it.
inline std::size_t plain_stage(double age, double unit, const emergence::StageLimits& limits) {
  std::size_t stage = 0;
  while (stage < limits.size() && age >= limits[stage] * unit) ++stage;
  return stage;
}

/// Share of the seedlings of day `cohort` that a treatment of a kind on day `at` kills or stops, both as day
/// indices; the foliar part as warm as the warmest of some days.
inline double plain_taken(const treatment::SeasonCohorts& season, const treatment::DrawnTreatment& drawn,
                          const treatment::GrassControl& grass, const treatment::ResidualRule& rule,
                          treatment::Kind kind, long at, long cohort, int days = 1) {
  if (cohort > at) return has_residual(kind) ? plain_stopped(season, drawn, at, cohort, rule) : 0.0;
  double killed = 0.0;
  if (has_foliar(kind)) {
    const double age = season.thermal_age[static_cast<std::size_t>(at)] -
                       season.thermal_age[static_cast<std::size_t>(cohort)];
    const std::size_t stage = plain_stage(age, season.age_unit, season.limits);
    killed = drawn.kill[stage].value() * plain_warmth(season, grass, at, days);
  }
  if (!has_residual(kind) || at - cohort > grass.young_up_to_days) return killed;
  double works = 0.0;
  for (const treatment::ResidualDraw& part : drawn.residuals) works = std::max(works, part.works);
  return std::max(killed, grass.young_seedlings.value() * works);
}

/// Share of the season's seedlings that a treatment of a kind on a day of the season kills or stops, up to
/// the cap; its foliar part in the warmest of some days from there on.
inline double plain_control(const treatment::SeasonCohorts& season, const treatment::DrawnTreatment& drawn,
                            const treatment::GrassControl& grass, const treatment::ResidualRule& rule,
                            treatment::Kind kind, Day day, int days = 1) {
  const long at = (day - season.first).count();
  double sum = 0.0;
  for (long i = 0; i < static_cast<long>(season.emerging_share.size()); ++i) {
    sum += plain_taken(season, drawn, grass, rule, kind, at, i, days) *
           season.emerging_share[static_cast<std::size_t>(i)];
  }
  return std::min(sum, grass.cap.value());
}

}  // namespace soilclock::tests
