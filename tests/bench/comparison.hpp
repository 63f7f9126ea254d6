// SPDX-License-Identifier: MIT
// Whole jobs against general tools: both sides timed in turn in one run, answers compared before any time is
// shown.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "advice/answer/answer.hpp"
#include "advice/data/catalogue.hpp"

namespace soilclock::bench {

/// One line of the closing table. Without `other_s` the general tool was not run; `note` says why.
struct Comparison {
  std::string job;
  std::string against;
  double ours_s = 0.0;
  std::optional<double> other_s;
  std::string note;
  bool answers_agree = true;  ///< when false no time is shown and the run fails
};

std::vector<Comparison> compare_degree_days();
std::vector<Comparison> compare_hourly_reading();
std::vector<Comparison> compare_answer_reading();
std::vector<Comparison> time_expected_control();
std::vector<Comparison> compare_advice();
std::vector<Comparison> compare_pages();

/// The built-in models and config, loaded once.
const advice::Catalogue& catalogue();

/// The demo's first course with its four grasses, from files on disk to the answer, as `advise` does it after
/// it has loaded its models.
advice::SiteAnswer advised();

inline double middle(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

/// Processor seconds this process and the tools it started have used; unlike the wall clock they say the same
/// on a machine that others use too.
double processor_seconds();

/// Processor seconds of one call, tools started in it included.
template <class Work>
double seconds_of(const Work& work) {
  const double start = processor_seconds();
  work();
  return processor_seconds() - start;
}

/// What a shell command writes; nothing when it fails or is not there.
std::optional<std::string> output_of(const std::string& command);

/// The path of a file in the build folder, where the made-up input lies.
std::string in_build_folder(const std::string& name);

}  // namespace soilclock::bench
