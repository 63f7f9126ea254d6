// SPDX-License-Identifier: MIT
// What went wrong, where, and what to do about it. Library floors return problems; only the app prints them.
#pragma once

#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <utility>

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

/// A value, or what kept it from being had; it must be looked at.
template <class Value, class Error = Problem>
class [[nodiscard]] Result : public tl::expected<Value, Error> {
 public:
  using tl::expected<Value, Error>::expected;
  Result(tl::expected<Value, Error> other) : tl::expected<Value, Error>{std::move(other)} {}
};

/// All is well, or what is not.
using Checked = Result<void>;

/// Becomes a result of any value.
template <class Error>
using Failure = tl::unexpected<Error>;

template <class Error = Problem>
Failure<Error> fail(Error error) {
  return Failure<Error>{std::move(error)};
}

}  // namespace soilclock
