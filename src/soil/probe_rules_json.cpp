// SPDX-License-Identifier: MIT
// Reads models/soil/probe_reading.json.
#include "core/json_reader.hpp"
#include "core/model_head.hpp"
#include "core/parameter.hpp"
#include "soil/probe_rules.hpp"

namespace soilclock::soil {

namespace {

double number_of(const JsonObject& parent, const char* key, const char* unit, double least, double most) {
  return read_parameter(parent, key, unit, {least, most}).value;
}

TemperatureDelta kelvin_of(const JsonObject& parent, const char* key, double least, double most) {
  return TemperatureDelta::from_kelvin(number_of(parent, key, "K", least, most));
}

WaveAnchor anchor_of(const JsonObject& json) {
  WaveAnchor anchor;
  anchor.depth = Depth::from_cm(number_of(json, "depth", "cm", 2.5, 15.0));
  anchor.below_mean_at_6 = number_of(json, "below_mean_at_6", "1", 0.001, 0.5);
  // A sine through the mean at 6 itself or twelve hours later says nothing about its size at 6.
  anchor.mean_hour = number_of(json, "mean_met_at", "h", 7.0, 17.0);
  anchor.sd_left = kelvin_of(json, "sd_left", 0.0, 5.0);
  json.finish();
  return anchor;
}

ProbeRules rules_of(const JsonObject& json, const std::string& file) {
  (void)read_head(json, file, "soilclock-probe-reading/1");
  ProbeRules rules;
  rules.shallow = anchor_of(json.object("at_2_inches"));
  rules.deep = anchor_of(json.object("at_4_inches"));
  if (rules.deep.depth <= rules.shallow.depth)
    json.refuse("at_4_inches", "this depth does not lie below the other one");
  rules.damping_depth = Depth::from_cm(number_of(json, "damping_depth", "cm", 1.0, 50.0));
  rules.usual_air_range = kelvin_of(json, "usual_air_range", 0.0, 40.0);
  rules.one_spot_sd = kelvin_of(json, "one_spot_sd", 0.01, 10.0);
  rules.four_spots_sd = kelvin_of(json, "four_spots_sd", 0.01, 10.0);
  const double ratio = rules.four_spots_sd.kelvin() / rules.one_spot_sd.kelvin();
  if (ratio < 0.5 || ratio > 1.0)
    json.refuse("four_spots_sd", "four spots are worth at least one and at most four",
                "half to all of one_spot_sd");
  rules.same_depth_cm = number_of(json, "same_depth", "cm", 0.0, 2.0);
  rules.shown_for_days = read_whole(json, "shown_for", "d", {0.0, 60.0});
  rules.change_variance_k2_per_day = number_of(json, "change_variance", "K2 per day", 0.0, 25.0);
  rules.worth_explaining = kelvin_of(json, "worth_explaining", 0.0, 20.0);
  json.finish();
  return rules;
}

}  // namespace

Result<ProbeRules> read_probe_rules(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [&](const JsonObject& json) { return rules_of(json, file); });
}

}  // namespace soilclock::soil
