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
    const auto days = [&top](std::string_view key) { return read_whole(top, key, "d", {1, 60}); };
    TurfRules rules;
    rules.green_soil = fahrenheit("green_soil");
    rules.slowing_soil = fahrenheit("slowing_soil");
    rules.dormant_soil = fahrenheit("dormant_soil");
    rules.dormant_mean_days = days("dormant_mean");
    rules.days_known = 0.01 * read_parameter(top, "days_known", "%", {1, 100}).value;
    rules.frost = fahrenheit("frost");
    rules.hard_frost = fahrenheit("hard_frost");
    rules.hard_nights = days("hard_nights");
    rules.breaking_soil = fahrenheit("breaking_soil");
    rules.breaking_air = fahrenheit("breaking_air");
    rules.greening_soil = fahrenheit("greening_soil");
    rules.run_days = days("run_days");
    const auto day_of_year = [&top](std::string_view key) { return read_whole(top, key, "d", {1, 366}); };
    rules.spring = {day_of_year("spring_from"), day_of_year("spring_to")};
    rules.frost_counts_from = day_of_year("frost_counts_from");
    rules.freeze_shows = Days{days("freeze_shows")};
    rules.heat_base = Temperature::from_celsius(read_parameter(top, "heat_base", "C", {-5, 15}).value);
    rules.zoysia_heat =
        DegreeDays::from_celsius_days(read_parameter(top, "zoysia_heat", "C d", {0, 2000}).value);
    top.finish();
    return rules;
  });
}

}  // namespace soilclock::treatment
