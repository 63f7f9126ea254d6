// SPDX-License-Identifier: MIT
#include "advice/data/hindcast_rules.hpp"

#include "core/parameter.hpp"

namespace soilclock::advice {

namespace {

PoolingRules read_pooling(const JsonObject& item) {
  const PoolingRules rules{0.01 * read_parameter(item, "most", "%", {0, 100}).value,
                           read_parameter(item, "from", "d", {0, 365}).value,
                           read_parameter(item, "over", "d", {0.1, 365}).value};
  item.finish();
  return rules;
}

}  // namespace

HindcastRules read_hindcast_rules(const JsonObject& item) {
  HindcastRules rules;
  rules.soil_window_days = read_whole(item, "soil_window", "d", {30, 365});
  rules.past_dates_least = read_whole(item, "past_dates_least", "dates", {1, 100});
  rules.compared_least = read_whole(item, "compared_least", "seasons", {1, 100});
  rules.pooling = read_pooling(item.object("past_dates_pooled"));
  item.finish();
  return rules;
}

}  // namespace soilclock::advice
