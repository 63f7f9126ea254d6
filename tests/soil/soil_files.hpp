// SPDX-License-Identifier: MIT
// The soil model files of the source tree, for tests.
#pragma once

#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "soil/soil_model.hpp"
#include "soil/surface_water.hpp"

namespace soilclock::tests {

inline std::string text_of(const std::filesystem::path& file) {
  std::ifstream input{file};
  std::ostringstream text;
  text << input.rdbuf();
  return text.str();
}

inline std::filesystem::path soil_folder() {
  return std::filesystem::path{SOILCLOCK_SOURCE_DIR} / "models" / "soil";
}

inline soil::SoilModel soil_file(const std::string& name) {
  const auto model = soil::read_soil_model(text_of(soil_folder() / name), name);
  if (!model) throw std::runtime_error{describe(model.error())};
  return *model;
}

inline soil::EstimateRules estimate_rules() {
  const auto rules = soil::read_estimate_rules(text_of(soil_folder() / "estimate.json"), "estimate.json");
  if (!rules) throw std::runtime_error{describe(rules.error())};
  return *rules;
}

inline soil::SurfaceWaterRules surface_water_rules() {
  const auto rules =
      soil::read_surface_water_rules(text_of(soil_folder() / "surface_water.json"), "surface_water.json");
  if (!rules) throw std::runtime_error{describe(rules.error())};
  return *rules;
}

inline soil::SoilModels soil_files() {
  std::vector<soil::SoilModel> models;
  for (const auto& entry : std::filesystem::directory_iterator{soil_folder()}) {
    const std::string name = entry.path().filename().string();
    if (name != "probe_reading.json" && name != "estimate.json" && name != "surface_water.json")
      models.push_back(soil_file(name));
  }
  auto set = soil::SoilModels::from(std::move(models), estimate_rules());
  if (!set) throw std::runtime_error{describe(set.error())};
  return *set;
}

inline soil::SoilModelPair eastern_pair() {
  return {soil_file("two_memories_east_5cm.json"), soil_file("two_memories_east_10cm.json"),
          estimate_rules()};
}

}  // namespace soilclock::tests
