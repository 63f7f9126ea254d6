// SPDX-License-Identifier: MIT
// Runs the ensemble of a target over all members: each member is one whole season with its own weather ahead,
// soil error, model and parameters.
#pragma once

#include <string>
#include <vector>

#include "advice/data/catalogue.hpp"
#include "advice/futures/scenarios.hpp"
#include "emergence/emergence_curve.hpp"

namespace soilclock::advice {

/// A model with its share of the members.
struct WeightedModel {
  const emergence::EmergenceModel* model = nullptr;
  double weight = 0.0;  ///< the weights of a job add up to 1
};

/// A component model of a target that has no say at a site, and why.
struct UnusedModel {
  const emergence::EmergenceModel* model = nullptr;
  std::string why;  ///< a clause
};

/// What is to be run for one target; targets of one season share the scenarios.
struct TargetJob {
  const emergence::Target* target = nullptr;
  const emergence::GrowthModel* growth = nullptr;
  std::vector<WeightedModel> models;
  std::vector<UnusedModel> unused = {};
};

/// One member's season for one target.
struct TargetMember {
  std::size_t model = 0;  ///< index into TargetJob::models
  emergence::EmergenceCurve curve;
  std::vector<double> thermal_age;  ///< by season day
  double phyllochron = 1.0;         ///< drawn
  std::size_t scenario = 0;         ///< which member of the scenarios it lived through
};

struct TargetRun {
  TargetJob job;
  Season season;
  std::vector<TargetMember> members;
};

/// The runs of all targets of a season.
struct SeasonRuns {
  std::vector<TargetRun> targets;
  std::vector<std::vector<Temperature>> soil;  ///< at 5 cm, by member and season day
};

/// Runs all jobs of one season. `scenarios.days()` must begin lead_in_days before the season and reach its
/// end.
SeasonRuns run_targets(const std::vector<TargetJob>& jobs, const Season& season, const Scenarios& scenarios,
                       const StratifiedDraws& draws, const Catalogue& catalogue, const SiteWeather& site);

}  // namespace soilclock::advice
