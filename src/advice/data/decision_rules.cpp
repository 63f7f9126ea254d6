// SPDX-License-Identifier: MIT
#include "advice/data/decision_rules.hpp"

#include "core/parameter.hpp"

namespace soilclock::advice {

namespace {

double points(const JsonObject& item, std::string_view key) {
  return read_parameter(item, key, "points", {0.0, 50.0}).value;
}

int days(const JsonObject& item, std::string_view key) { return read_whole(item, key, "d", {0.0, 120.0}); }

double share(const JsonObject& item, std::string_view key) {
  return 0.01 * read_parameter(item, key, "%", {0.0, 100.0}).value;
}

}  // namespace

emergence::MonthDay read_month_day(const JsonObject& parent, std::string_view key) {
  const JsonObject object = parent.object(key);
  const emergence::MonthDay day{static_cast<unsigned>(object.integer("month", 1, 12)),
                                static_cast<unsigned>(object.integer("day", 1, 28))};
  (void)read_grounds(object);
  object.finish();
  return day;
}

DecisionRules read_decision_rules(const JsonObject& item) {
  DecisionRules rules;
  rules.part_worth = points(item, "part_worth");
  rules.range_bridge = points(item, "range_bridge");
  rules.range_within = points(item, "range_within");
  rules.good_through_best = points(item, "good_through_best");
  rules.good_through_kind = points(item, "good_through_kind");
  rules.hurry = points(item, "hurry");
  rules.late = points(item, "late");
  rules.close_call_least = points(item, "close_call_least");
  rules.close_call_most = points(item, "close_call_most");
  rules.adding_part_worth = points(item, "adding_part_worth");
  rules.summer_days_after_90 = days(item, "summer_after_90_percent");
  rules.fall_last_day = read_month_day(item, "fall_last_day");
  rules.gated_share = share(item, "gated_share");
  rules.gated_share_ahead = share(item, "gated_share_ahead");
  rules.summer_look_earlier_days = days(item, "summer_look_earlier");
  rules.models_weight = share(item, "models_weight");
  rules.models_apart = points(item, "models_apart");
  rules.models_days_apart = days(item, "models_days_apart");
  rules.hump_share = share(item, "hump_share");
  rules.hump_gap = points(item, "hump_gap");
  rules.look_from_days = days(item, "look_from");
  rules.look_to_days = days(item, "look_to");
  rules.short_residual_weeks = read_parameter(item, "short_residual", "weeks", {1.0, 52.0}).value;
  rules.long_residual_weeks = read_parameter(item, "long_residual", "weeks", {1.0, 52.0}).value;
  if (rules.range_within > rules.range_bridge) {
    item.object("range_within").refuse("value", "the ends of the range would lie outside the bridged dips");
  }
  if (rules.close_call_least > rules.close_call_most) {
    item.object("close_call_least").refuse("value", "this is above close_call_most");
  }
  item.finish();
  return rules;
}

}  // namespace soilclock::advice
