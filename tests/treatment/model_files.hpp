// SPDX-License-Identifier: MIT
// The model files of this floor, as the tests read them.
#pragma once

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>

#include "treatment/reach.hpp"
#include "treatment/reach_settings.hpp"

namespace soilclock::treatment {

/// The text of a file under models/treatment; fails the test when it cannot be read.
inline std::string model_text(const std::string& file) {
  std::ifstream in{std::string{SOILCLOCK_SOURCE_DIR} + "/models/treatment/" + file};
  REQUIRE(in.good());
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// The value of a result; fails the test with the problem's own words otherwise.
template <class Value>
Value taken(const Result<Value>& result) {
  if (!result) FAIL(describe(result.error()));
  return *result;
}

inline ReachRules shipped_rules() {
  return {taken(read_kill_matrix(model_text("kill_matrix.json"), "kill_matrix.json")),
          taken(read_residual_rule(model_text("residual.json"), "residual.json"))};
}

inline ReachSettings shipped_settings() {
  return taken(read_reach_settings(model_text("reach_settings.json"), "reach_settings.json"));
}

}  // namespace soilclock::treatment
