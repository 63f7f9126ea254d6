// SPDX-License-Identifier: MIT
// Expected control beside what dated trials printed, and how often the band of control seen in a strip holds
// the truth.
#include <fmt/format.h>

#include "studies/studies.hpp"
#include "treatment/dated_trials.hpp"
#include "treatment/patchy_strips.hpp"

namespace soilclock::studies {

namespace {

void print_trials(const advice::Catalogue& catalogue) {
  const treatment::TrialModels models{catalogue.control_of("POAAN"), catalogue.residual, catalogue.mixture,
                                      catalogue.growth.at("POAAN_leaf_pace")};
  fmt::print(
      "\n| dated trial, annual bluegrass | printed, % | worked out, % | points outside |\n| --- | --- | --- "
      "| --- "
      "|\n");
  for (const treatment::Trial& trial : treatment::dated_trials()) {
    const double points = treatment::expected_points(trial, models);
    const double outside = std::max({0.0, trial.least - points, points - trial.most});
    fmt::print("| {} | {:.0f} to {:.0f} | {:.0f} | {:.0f}{} |\n", trial.name, trial.least, trial.most, points,
               outside, trial.unlike.empty() ? "" : ": " + trial.unlike);
  }
}

void print_strips(const treatment::CountDoubt& doubt) {
  fmt::print(
      "\n| true control | plots on each side | strips judged | inside the 80% band |\n| --- | --- | --- | "
      "--- "
      "|\n");
  for (const double left : {0.05, 0.1, 0.4}) {
    for (const std::size_t plots : {3U, 5U, 10U}) {
      const treatment::HeldControls held = treatment::controls_held(left, plots, doubt);
      fmt::print("| {:.0f}% | {} | {} of {} | {:.0f}% |\n", 100.0 * (1.0 - left), plots, held.judged,
                 held.strips, 100.0 * held.share());
    }
  }
}

}  // namespace

bool study_control(const std::vector<Station>&, const advice::Catalogue& catalogue, unsigned) {
  print_trials(catalogue);
  const advice::CountRule& rule = catalogue.scouting.counts;
  print_strips({rule.patchiness_median, rule.look_log_sd, Fraction::of(rule.least_seen)});
  return true;
}

}  // namespace soilclock::studies
