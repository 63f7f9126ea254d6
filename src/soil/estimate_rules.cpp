// SPDX-License-Identifier: MIT
#include "soil/estimate_rules.hpp"

#include <algorithm>
#include <cmath>

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::soil {

double UsualYear::amplitude_kelvin(double latitude_deg) const {
  return std::clamp(kelvin_per_degree * (std::abs(latitude_deg) - from_latitude_deg), least_kelvin,
                    most_kelvin);
}

bool EstimateRules::same_depth(Depth a, Depth b) const { return std::abs(a.cm() - b.cm()) <= same_depth_cm; }

Result<EstimateRules> read_estimate_rules(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-soil-estimate/1");
    const auto number = [&](std::string_view key, std::string_view unit, double least, double most) {
      return read_parameter(top, key, unit, {least, most}).value;
    };
    const auto whole = [&](std::string_view key, std::string_view unit, double least, double most) {
      return read_whole(top, key, unit, {least, most});
    };
    EstimateRules rules;
    rules.usual_year.from_latitude_deg = number("amplitude_from", "degrees", 0.0, 60.0);
    rules.usual_year.kelvin_per_degree = number("amplitude_per_degree", "K per degree", 0.01, 5.0);
    rules.usual_year.least_kelvin = number("amplitude_least", "K", 0.0, 40.0);
    rules.usual_year.most_kelvin = number("amplitude_most", "K", rules.usual_year.least_kelvin, 40.0);
    rules.usual_year.warmest_north = whole("warmest_north", "day of year", 1.0, 366.0);
    rules.usual_year.warmest_south = whole("warmest_south", "day of year", 1.0, 366.0);
    rules.start_days = whole("start_days", "d", 1.0, 60.0);
    rules.bridged_gap_days = whole("bridged_gap", "d", 0.0, 60.0);
    rules.run_in_days = whole("run_in", "d", 0.0, 366.0);
    rules.same_depth_cm = number("same_depth", "cm", 0.0, 2.0);
    rules.depth_variance_k2_per_cm = number("depth_variance", "K2 per 5 cm", 0.0, 25.0) / 5.0;
    rules.learn_readings = whole("learn_readings", "readings", 2.0, 1000.0);
    rules.extra_noise_k2 = number("extra_noise", "K2", 1e-3, 25.0);
    rules.error_size_sd = number("error_size_sd", "1", 0.01, 3.0);
    top.finish();
    return rules;
  });
}

}  // namespace soilclock::soil
