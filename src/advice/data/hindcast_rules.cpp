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

SiteFitRules read_site_fit(const JsonObject& item) {
  const SiteFitRules rules{read_whole(item, "readings", "years", {1, 100}),
                           0.01 * read_parameter(item, "days_known", "%", {1, 100}).value,
                           read_whole(item, "smoothing", "d", {0, 180}),
                           read_whole(item, "slow_lag", "d", {1, 365}),
                           read_parameter(item, "fast_lag1_most", "1", {0, 0.999}).value,
                           read_parameter(item, "variance_least", "K2", {1e-4, 10}).value};
  item.finish();
  return rules;
}

}  // namespace

HindcastRules read_hindcast_rules(const JsonObject& item) {
  HindcastRules rules;
  rules.soil_window_days = read_whole(item, "soil_window", "d", {30, 365});
  rules.readings_reach_days = read_whole(item, "readings_reach", "d", {1, 3660});
  rules.past_dates_least = read_whole(item, "past_dates_least", "dates", {1, 100});
  rules.compared_least = read_whole(item, "compared_least", "seasons", {1, 100});
  rules.pooling = read_pooling(item.object("past_dates_pooled"));
  rules.site_fit = read_site_fit(item.object("site_fit"));
  item.finish();
  return rules;
}

}  // namespace soilclock::advice
