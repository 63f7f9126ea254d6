// SPDX-License-Identifier: MIT
#include "advice/data/earlier_season_rule.hpp"

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::advice {

Result<EarlierSeasonRule> read_earlier_season_rule(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-earlier-seasons/1");
    EarlierSeasonRule rule;
    rule.season_sd_days = read_parameter(top, "season_sd", "d", {0.5, 20.0}).value;
    rule.neighbor_sd_days = read_parameter(top, "neighbor_sd", "d", {0.5, 20.0}).value;
    rule.neighbor_power = read_parameter(top, "neighbor_power", "1", {0.01, 1.0}).value;
    rule.outlier_share = read_parameter(top, "outlier_share", "1", {0.001, 0.999}).value;
    rule.weight_kept = read_parameter(top, "weight_kept", "1", {0.001, 1.0}).value;
    rule.seasons_most = read_whole(top, "seasons_most", "seasons", {1, 40});
    top.finish();
    return rule;
  });
}

}  // namespace soilclock::advice
