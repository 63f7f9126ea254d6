// SPDX-License-Identifier: MIT
#include "advice/data/first_seen_rule.hpp"

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

}  // namespace soilclock::advice
