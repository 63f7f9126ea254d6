// SPDX-License-Identifier: MIT
// Reads models/soil/surface_water.json.
#include <algorithm>

#include "core/json_reader.hpp"
#include "core/model_head.hpp"
#include "core/parameter.hpp"
#include "soil/surface_water.hpp"

namespace soilclock::soil {

namespace {

RetentionCurve curve_of(const JsonObject& json, const SurfaceWaterRules& rules) {
  const auto number = [&](std::string_view key, std::string_view unit, double least, double most) {
    return read_parameter(json, key, unit, {least, most}).value;
  };
  RetentionCurve curve;
  curve.saturation = number("saturation", "1", 0.1, 0.9);
  curve.air_entry = WaterPotential::from_cm_water(number("air_entry", "cm of water", -300.0, -0.1));
  curve.exponent = number("exponent", "1", 1.0, 30.0);
  if (rules.field_capacity >= curve.air_entry)
    json.refuse("air_entry", "this lies below field capacity: the layer would always be saturated");
  json.finish();
  return curve;
}

SurfaceWaterRules surface_rules_of(const JsonObject& json, const std::string& file) {
  (void)read_head(json, file, "soilclock-surface-water/1");
  const auto number = [&](std::string_view key, std::string_view unit, double least, double most) {
    return read_parameter(json, key, unit, {least, most}).value;
  };
  SurfaceWaterRules rules;
  rules.layer = Depth::from_cm(number("layer", "cm", 1.0, 15.0));
  rules.field_capacity = WaterPotential::from_mpa(number("field_capacity", "MPa", -0.1, -0.001));
  rules.wilting = WaterPotential::from_mpa(number("wilting", "MPa", -5.0, -0.2));
  rules.driest_share = number("driest_share", "1", 0.05, 1.0);
  rules.demand_share = number("demand_share", "1", 0.01, 1.0);
  rules.agreement = number("agreement", "1", 0.001, 0.5);
  const JsonObject textures = json.object("textures");
  for (std::size_t i = 0; i < texture_count; ++i) {
    std::string key = texture_words()[i];
    std::replace(key.begin(), key.end(), ' ', '_');
    rules.textures.at(i) = curve_of(textures.object(key), rules);
  }
  textures.finish();
  json.finish();
  return rules;
}

}  // namespace

Result<SurfaceWaterRules> read_surface_water_rules(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request,
                   [&](const JsonObject& json) { return surface_rules_of(json, file); });
}

}  // namespace soilclock::soil
