// SPDX-License-Identifier: MIT
#include "site/strip_checks.hpp"

namespace soilclock {

Result<treatment::ObservedControl> control_seen(const records::StripCheck& check,
                                                const advice::CountRule& rule) {
  const treatment::CountDoubt doubt{rule.patchiness_median, rule.look_log_sd, Fraction::of(rule.least_seen)};
  if (check.treated_share && check.untreated_share) {
    return treatment::observed_control(
        treatment::CoverCompared{*check.treated_share, *check.untreated_share, check.treated_share_before,
                                 check.untreated_share_before},
        doubt);
  }
  return treatment::observed_control(
      treatment::PlotsCompared{check.treated, check.untreated, check.treated_before, check.untreated_before},
      doubt);
}

std::optional<Problem> strip_problem(const records::Record& record, const advice::CountRule& rule) {
  const auto* check = std::get_if<records::StripCheck>(&record);
  if (check == nullptr) return std::nullopt;
  const auto control = control_seen(*check, rule);
  return control ? std::nullopt : std::optional{control.error()};
}

std::string strip_words(const records::Record& record, const advice::CountRule& rule) {
  const auto* check = std::get_if<records::StripCheck>(&record);
  if (check == nullptr) return "";
  const auto control = control_seen(*check, rule);
  return control ? treatment::control_words(*control) : "control not known: " + control.error().what;
}

}  // namespace soilclock
