// SPDX-License-Identifier: MIT
#include "advice/first_seen.hpp"

#include <cmath>
#include <numbers>

#include "treatment/cited_value.hpp"

namespace soilclock::advice {

Result<FirstSeenRule> read_first_seen_rule(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [](const JsonObject& top) {
    treatment::read_file_head(top, "soilclock-first-seen/1");
    FirstSeenRule rule;
    rule.share_up = Fraction::from_percent(treatment::read_cited(top, "share_up", "%", 0.1, 50).value);
    rule.sd_days = treatment::read_cited(top, "sd", "d", 0.5, 60).value;
    rule.says_nothing = treatment::read_cited(top, "says_nothing", "share", 0.001, 0.999).value;
    top.finish();
    return rule;
  });
}

double first_seen_log_likelihood(const FirstSeenRule& rule, const emergence::EmergenceCourse& course,
                                 int season_day) {
  const int season_days = static_cast<int>(course.up.size());
  const int noticed = course.first_day_reaching(rule.share_up.value()).value_or(season_days);
  const double off = (season_day - noticed) / rule.sd_days;
  const double density = std::exp(-0.5 * off * off) / (rule.sd_days * std::sqrt(2.0 * std::numbers::pi));
  return std::log((1.0 - rule.says_nothing) * density + rule.says_nothing / season_days);
}

}  // namespace soilclock::advice
