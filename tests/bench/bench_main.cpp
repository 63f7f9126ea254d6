// SPDX-License-Identifier: MIT
// The inner loops first, then whole jobs against general tools and a short table of those.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cstdio>

#include "bench/comparison.hpp"

namespace {

using soilclock::bench::Comparison;

/// Prints the table; false when an answer was wrong.
bool print_table(const std::vector<Comparison>& rows) {
  bool right = true;
  fmt::print("\nWhole jobs, processor time (ratio: the other / ours; above 1 ours is faster)\n");
  fmt::print("{:<44} {:<34} {:>9} {:>9} {:>7}\n", "job", "against", "ours ms", "other ms", "ratio");
  for (const Comparison& row : rows) {
    right = right && row.answers_agree;
    if (!row.answers_agree) {
      fmt::print("{:<44} {:<34} WRONG ANSWER: {}\n", row.job, row.against, row.note);
    } else if (row.other_s) {
      fmt::print("{:<44} {:<34} {:>9.1f} {:>9.1f} {:>7.2f}  {}\n", row.job, row.against, row.ours_s * 1e3,
                 *row.other_s * 1e3, *row.other_s / row.ours_s, row.note);
    } else {
      fmt::print("{:<44} {:<34} {:>9.1f} {:>9} {:>7}  {}\n", row.job, row.against, row.ours_s * 1e3, "-", "-",
                 row.note);
    }
  }
  return right;
}

}  // namespace

int main(int count, char** words) {
  benchmark::Initialize(&count, words);
  if (benchmark::ReportUnrecognizedArguments(count, words)) return 2;
  benchmark::RunSpecifiedBenchmarks();
  std::vector<Comparison> rows;
  for (const auto job : {soilclock::bench::compare_degree_days, soilclock::bench::compare_hourly_reading,
                         soilclock::bench::compare_answer_reading, soilclock::bench::time_expected_control,
                         soilclock::bench::compare_advice, soilclock::bench::compare_pages}) {
    for (const Comparison& row : job()) rows.push_back(row);
  }
  return print_table(rows) ? 0 : 1;
}
