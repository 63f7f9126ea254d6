// SPDX-License-Identifier: MIT
#include "fuzz/harnesses.hpp"

#include <cstdio>
#include <cstdlib>

namespace soilclock::fuzz {

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
