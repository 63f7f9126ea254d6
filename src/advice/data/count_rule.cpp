// SPDX-License-Identifier: MIT
#include "advice/data/count_rule.hpp"

#include <cmath>

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::advice {

namespace {

std::vector<int> read_trial_shifts(const JsonObject& item) {
  std::vector<int> shifts;
  for (const double days : item.numbers("days")) {
    if (days != std::floor(days) || std::abs(days) > 60.0)
      item.refuse("days", "a shift is a whole number of days", "-60 to 60");
    shifts.push_back(static_cast<int>(days));
  }
  if (shifts.empty()) item.refuse("days", "no shift is named", "at least one");
  (void)read_grounds(item);
  item.finish();
  return shifts;
}

std::vector<double> read_empty_shares(const JsonObject& item) {
  std::vector<double> shares;
  for (const double percent : item.numbers("percents")) {
    if (!(percent > 0.0 && percent < 100.0))
      item.refuse("percents", "a share of empty plots leaves some of either kind", "above 0 and below 100");
    shares.push_back(0.01 * percent);
  }
  if (shares.empty()) item.refuse("percents", "no share is named", "at least one");
  (void)read_grounds(item);
  item.finish();
  return shares;
}

CountCheckRule read_check(const JsonObject& top) {
  CountCheckRule check;
  check.curve_surprise = 0.01 * read_parameter(top, "curve_surprise", "%", {0.01, 50}).value;
  check.plots_surprise = 0.01 * read_parameter(top, "plots_surprise", "%", {0.01, 50}).value;
  check.visits_judged = static_cast<std::size_t>(read_whole(top, "visits_judged", "visits", {2, 100}));
  check.plots_judged = static_cast<std::size_t>(read_whole(top, "plots_judged", "plots", {1, 100}));
  check.density_least = read_parameter(top, "visit_density_least", "1/m2", {0.0001, 10000}).value;
  check.density_most = read_parameter(top, "visit_density_most", "1/m2", {0.0001, 100000}).value;
  if (check.density_most <= check.density_least)
    top.object("visit_density_most").refuse("value", "this is not above visit_density_least");
  check.empty_shares = read_empty_shares(top.object("empty_shares"));
  return check;
}

}  // namespace

Result<CountRule> read_count_rule(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-seedling-counts/1");
    const auto number = [&](std::string_view key, std::string_view unit, double least, double most) {
      return read_parameter(top, key, unit, {least, most}).value;
    };
    CountRule rule;
    rule.total_median = number("total_median", "1/m2", 0.1, 10000);
    rule.total_log_sd = number("total_log_sd", "1", 0.1, 5);
    rule.patchiness_median = number("patchiness_median", "1", 0.01, 100);
    rule.patchiness_log_sd = number("patchiness_log_sd", "1", 0.01, 5);
    rule.patchiness_least = number("patchiness_least", "1", 0.01, 100);
    rule.patchiness_most = number("patchiness_most", "1", 0.01, 100);
    if (rule.patchiness_most <= rule.patchiness_least)
      top.object("patchiness_most").refuse("value", "this is not above patchiness_least");
    rule.stray_share = number("stray_share", "%", 0.0001, 10) / 100.0;
    rule.trial_shifts = read_trial_shifts(top.object("trial_shifts"));
    rule.usual_plot_m2 = number("usual_plot", "m2", 0.001, 100);
    rule.full_cover = number("full_cover", "%", 0.01, 99) / 100.0;
    rule.full_cover_log_sd = number("full_cover_log_sd", "1", 0.1, 5);
    rule.look_log_sd = number("look_log_sd", "1", 0.1, 5);
    rule.least_seen = number("least_seen", "%", 0.1, 10) / 100.0;
    rule.most_seen = number("most_seen", "%", 90, 99.9) / 100.0;
    rule.stage_misjudged = number("stage_misjudged", "1", 0.001, 0.999);
    rule.least_effective = number("least_effective", "1", 0, 1);
    rule.check = read_check(top);
    top.finish();
    return rule;
  });
}

}  // namespace soilclock::advice
