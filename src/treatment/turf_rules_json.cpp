// SPDX-License-Identifier: MIT
#include "core/model_head.hpp"
#include "core/parameter.hpp"
#include "treatment/turf_state.hpp"

namespace soilclock::treatment {

Result<TurfRules> read_turf_rules(std::string_view json, const std::string& file) {
  return read_json(json, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-turf-state/1");
    const auto fahrenheit = [&top](std::string_view key) {
      return Temperature::from_fahrenheit(read_parameter(top, key, "F", {0, 100}).value);
    };
    const auto days = [&top](std::string_view key) {
      return static_cast<int>(read_parameter(top, key, "d", {1, 60}).value);
    };
    TurfRules rules;
    rules.green_soil = fahrenheit("green_soil");
    rules.slowing_soil = fahrenheit("slowing_soil");
    rules.dormant_soil = fahrenheit("dormant_soil");
    rules.frost = fahrenheit("frost");
    rules.hard_frost = fahrenheit("hard_frost");
    rules.hard_nights = days("hard_nights");
    rules.breaking_soil = fahrenheit("breaking_soil");
    rules.breaking_air = fahrenheit("breaking_air");
    rules.greening_soil = fahrenheit("greening_soil");
    rules.run_days = days("run_days");
    rules.heat_base = Temperature::from_celsius(read_parameter(top, "heat_base", "C", {-5, 15}).value);
    rules.zoysia_heat =
        DegreeDays::from_celsius_days(read_parameter(top, "zoysia_heat", "C d", {0, 2000}).value);
    top.finish();
    return rules;
  });
}

}  // namespace soilclock::treatment
