// SPDX-License-Identifier: MIT
#include "advice/data/first_seen_rule.hpp"

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::advice {

Result<FirstSeenRule> read_first_seen_rule(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-first-seen/1");
    FirstSeenRule rule;
    rule.share_up = Fraction::from_percent(read_parameter(top, "share_up", "%", {0.1, 50}).value);
    rule.sd_days = read_parameter(top, "sd", "d", {0.5, 60}).value;
    rule.says_nothing = read_parameter(top, "says_nothing", "1", {0.001, 0.999}).value;
    top.finish();
    return rule;
  });
}

}  // namespace soilclock::advice
