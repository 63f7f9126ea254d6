// SPDX-License-Identifier: MIT
#include "advice/data/count_rule.hpp"

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::advice {

Result<CountRule> read_count_rule(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-seedling-counts/1");
    const auto number = [&](std::string_view key, std::string_view unit, double least, double most) {
      return read_parameter(top, key, unit, {least, most}).value;
    };
    CountRule rule;
    rule.usual_plot_m2 = number("usual_plot", "m2", 0.001, 100);
    rule.full_cover = number("full_cover", "%", 0.01, 99) / 100.0;
    rule.full_cover_log_sd = number("full_cover_log_sd", "1", 0.1, 5);
    rule.look_log_sd = number("look_log_sd", "1", 0.1, 5);
    rule.least_seen = number("least_seen", "%", 0.1, 10) / 100.0;
    rule.most_seen = number("most_seen", "%", 90, 99.9) / 100.0;
    rule.stage_misjudged = number("stage_misjudged", "1", 0.001, 0.999);
    rule.least_effective = number("least_effective", "1", 0, 1);
    top.finish();
    return rule;
  });
}

}  // namespace soilclock::advice
