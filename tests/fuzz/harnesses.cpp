// SPDX-License-Identifier: MIT
#include "fuzz/harnesses.hpp"

#include <cstdio>
#include <cstdlib>

namespace soilclock::fuzz {

namespace {

constexpr Harness all[] = {{"weather_text", weather_text},
                           {"service_answer", service_answer},
                           {"site_file", site_file},
                           {"model_file", model_file},
                           {"dates_and_units", dates_and_units},
                           {"log_import", log_import},
                           {"records_file", records_file},
                           {"settings", settings}};

}  // namespace

std::span<const Harness> harnesses() { return all; }

void demand(bool holds, const char* promise) {
  if (holds) return;
  std::fprintf(stderr, "broken promise: %s\n", promise);
  std::abort();
}

void demand_good(const Problem& problem) {
  demand(!problem.what.empty(), "a problem says what is wrong");
  demand(problem.family != Family::fault, "bad input is no fault of the program");
  demand(problem.where.line.value_or(1) >= 1, "lines count from 1");
  demand(problem.where.column.value_or(1) >= 1, "columns count from 1");
  demand(describe(problem).find('\n') == std::string::npos, "a problem is one line");
}

}  // namespace soilclock::fuzz
