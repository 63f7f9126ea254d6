// SPDX-License-Identifier: MIT
// What is built in: models with their numbers, validity, sources and check points.
#pragma once

#include <string>
#include <vector>

#include "advice/data/catalogue.hpp"

namespace soilclock::report {

/// Ids of all emergence and soil models and codes of all targets.
std::vector<std::string> model_ids(const advice::Catalogue& catalogue);
bool has_model(const advice::Catalogue& catalogue, const std::string& id);

/// The list when no ids are given, else the models and targets named, in full. A target shows its members.
std::string models_text(const advice::Catalogue& catalogue, const std::vector<std::string>& ids);
/// The "soilclock-models" document, version 1.
std::string models_json(const advice::Catalogue& catalogue, const std::vector<std::string>& ids);

}  // namespace soilclock::report
