// SPDX-License-Identifier: MIT
#include "dated_trials.hpp"

#include <fmt/format.h>

#include <iostream>

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

const TrialModels& models() {
  static const TrialModels shipped{shipped_control(), shipped_residual(), shipped_mixture(),
                                   bluegrass_growth()};
  return shipped;
}

}  // namespace

TEST_CASE("dated trials agree in direction and rough size: a consistency check, not a validation") {
  constexpr double rough_points = 15.0;
  std::cout << "consistency with dated trials (no validation: the kill rows were set knowing them)\n";
  for (const Trial& trial : dated_trials()) {
    const double points = expected_points(trial, models());
    std::cout << fmt::format("  {:<62} printed {:>3.0f}-{:<3.0f} computed {:>3.0f}{}\n", trial.name,
                             trial.least, trial.most, points,
                             trial.unlike.empty() ? "" : "  (known not to follow)");
    INFO(trial.name);
    const bool near = points >= trial.least - rough_points && points <= trial.most + rough_points;
    CHECK(near == trial.unlike.empty());
  }
}

TEST_CASE("the directions the dated trials show are in the model") {
  std::map<std::string, double> by_name;
  for (const Trial& trial : dated_trials()) by_name[trial.name] = expected_points(trial, models());
  const auto at = [&](const std::string& name) { return by_name.at(name); };
  CHECK(at("residual of 26 weeks at the pre date, Georgia") >
        at("residual of 26 weeks, 8 weeks after the pre date, Georgia") + 20.0);
  CHECK(at("residual of 16 weeks in mid-September, Maryland") >
        at("residual of 16 weeks on 13 October, Maryland") + 20.0);
  CHECK(at("contact with residual, November, Alabama") > at("contact with residual, December, Alabama"));
  CHECK(at("contact with residual, December, Alabama") >
        at("contact with residual, mature plants in late winter, Georgia"));
  CHECK(at("mixture on mature plants in late winter, Georgia") >
        at("contact with residual, mature plants in late winter, Georgia") + 10.0);
}
