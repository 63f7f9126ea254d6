// SPDX-License-Identifier: MIT
// What went wrong, where, and what to do about it. Library floors return problems; only the app prints them.
#pragma once

#include <optional>
#include <string>
#include <tl/expected.hpp>

namespace soilclock {

/// Three families and no more, plus our own fault; each has its exit code.
enum class Family {
  request,      ///< the arguments, site file, model or practice file are wrong: exit 2
  data,         ///< a weather file is wrong: exit 3
  environment,  ///< disk or network failed: exit 4
  fault         ///< an internal error: exit 70
};
int exit_code(Family family);

/// Where in what we were given; all parts optional. Lines and columns count from 1.
struct InputPlace {
  std::string file;
  std::optional<int> line;
  std::optional<int> column;
  std::string json_pointer;  ///< "/sites/0/latitude"
};

struct Problem {
  Family family = Family::fault;
  std::string what;  ///< one sentence without full stop
  InputPlace where;
  std::string found;     ///< the offending text, shortened by describe()
  std::string expected;  ///< what would have been accepted
  std::string remedy;    ///< what to do next
};

/// One readable line: "FILE:LINE:COLUMN: what; found '...', expected ...; remedy".
std::string describe(const Problem& problem);

template <class Value>
using Result = tl::expected<Value, Problem>;

inline tl::unexpected<Problem> fail(Problem problem) { return tl::unexpected<Problem>{std::move(problem)}; }

}  // namespace soilclock
