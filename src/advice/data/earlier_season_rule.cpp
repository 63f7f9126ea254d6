// SPDX-License-Identifier: MIT
#include "advice/data/earlier_season_rule.hpp"

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::advice {

Result<EarlierSeasonRule> read_earlier_season_rule(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-earlier-seasons/1");
    EarlierSeasonRule rule;
    rule.site_share = read_parameter(top, "site_share", "1", {0.0, 0.99}).value;
    rule.group_share = read_parameter(top, "group_share", "1", {0.0, 0.99}).value;
    rule.outlier_share = read_parameter(top, "outlier_share", "1", {0.001, 0.999}).value;
    rule.weight_kept = read_parameter(top, "weight_kept", "1", {0.001, 1.0}).value;
    rule.shapes = read_whole(top, "shapes", "members", {1, 100});
    rule.reach_days = read_whole(top, "reach", "d", {10, 90});
    rule.seasons_most = read_whole(top, "seasons_most", "seasons", {1, 40});
    top.finish();
    return rule;
  });
}

}  // namespace soilclock::advice
