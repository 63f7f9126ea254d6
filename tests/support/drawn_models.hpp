// SPDX-License-Identifier: MIT
// Shipped emergence and growth models with their central values, for tests that run them.
#pragma once

#include "emergence/growth_model.hpp"
#include "emergence/member_run.hpp"
#include "support/source_texts.hpp"

namespace soilclock::tests {

inline emergence::EmergenceModel shipped_model(const std::string& id) {
  const std::string file = "models/emergence/" + id + ".json";
  auto model = emergence::read_emergence_model(source_text(file), file);
  if (!model) FAIL(describe(model.error()));
  return *std::move(model);
}

inline emergence::GrowthModel shipped_growth(const std::string& id) {
  const std::string file = "models/growth/" + id + ".json";
  auto growth = emergence::read_growth_model(source_text(file), file);
  if (!growth) FAIL(describe(growth.error()));
  return *std::move(growth);
}

/// A model, and the one it follows, run with central values over a season.
inline emergence::EmergenceCurve run_center(const emergence::EmergenceModel& model,
                                            const emergence::SeasonDrivers& drivers, const Place& place) {
  const emergence::DrawnModel drawn{&model, emergence::central_parameters(model)};
  if (!model.follows) return emergence::run_member(drawn, nullptr, drivers, place);
  const emergence::EmergenceModel leader = shipped_model(model.follows->model);
  const emergence::DrawnModel followed{&leader, emergence::central_parameters(leader)};
  return emergence::run_member(drawn, &followed, drivers, place);
}

}  // namespace soilclock::tests
