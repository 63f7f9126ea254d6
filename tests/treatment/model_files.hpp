// SPDX-License-Identifier: MIT
// The model files of this floor, as the tests read them.
#pragma once

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>

#include "emergence/growth_model.hpp"
#include "treatment/actives.hpp"
#include "treatment/grass_control.hpp"
#include "treatment/mixture.hpp"
#include "treatment/residual.hpp"

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

/// A file of models/treatment/control/ by its id.
inline GrassControl shipped_control(const std::string& grass = "annual_bluegrass") {
  const std::string file = "control/" + grass + ".json";
  return taken(read_grass_control(model_text(file), file));
}

/// A file of models/growth/ by its id.
inline emergence::GrowthModel shipped_growth(const std::string& id) {
  const std::string file = "../growth/" + id + ".json";
  return taken(emergence::read_growth_model(model_text(file), file));
}

inline const emergence::GrowthModel& bluegrass_growth() {
  static const emergence::GrowthModel growth = shipped_growth("POAAN_leaf_pace");
  return growth;
}

inline ResidualRule shipped_residual() {
  return taken(read_residual_rule(model_text("residual.json"), "residual.json"));
}

inline MixtureRule shipped_mixture() {
  return taken(read_mixture_rule(model_text("mixtures.json"), "mixtures.json"));
}

inline const Actives& shipped_actives() {
  static const Actives all = taken(read_actives(model_text("actives.json"), "actives.json"));
  return all;
}

}  // namespace soilclock::treatment
