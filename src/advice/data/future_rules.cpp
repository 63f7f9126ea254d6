// SPDX-License-Identifier: MIT
#include "advice/data/future_rules.hpp"

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::advice {

Result<FutureRules> read_future_rules(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-futures/1");
    const auto whole = [&](std::string_view key, std::string_view unit, double least, double most) {
      return read_whole(top, key, unit, {least, most});
    };
    const auto number = [&](std::string_view key, std::string_view unit, double least, double most) {
      return read_parameter(top, key, unit, {least, most}).value;
    };
    FutureRules rules;
    rules.past_seasons_least = whole("past_seasons_least", "seasons", 1, 100);
    rules.past_seasons_most = whole("past_seasons_most", "seasons", rules.past_seasons_least, 200);
    rules.made_up = whole("made_up", "futures", 1, 1000);
    rules.forecast_members_least = whole("forecast_members_least", "members", 2, 100);
    rules.rain_block_days = whole("rain_block", "d", 1, 60);
    rules.rain_near_days = whole("rain_near", "d", 1, 183);
    rules.rain_far_days = whole("rain_far", "d", rules.rain_near_days, 183);
    rules.half_range_least_kelvin = number("half_range_least", "K", 0, 10);
    rules.memory_most = number("memory_most", "1", 0, 0.999);
    rules.range_worth_days = number("range_worth", "d", 0.1, 3660);
    rules.gaps.longest_interpolated = whole("gap_interpolated", "d", 0, 10);
    rules.gaps.longest_past_year = whole("gap_past_year", "d", rules.gaps.longest_interpolated, 60);
    rules.around_gap_days = whole("around_gap", "d", 0, 60);
    rules.guessed_air_sd_kelvin = number("guessed_air_sd", "K", 0, 20);
    top.finish();
    return rules;
  });
}

}  // namespace soilclock::advice
