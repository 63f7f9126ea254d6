// SPDX-License-Identifier: MIT
#include "advice/scouting/first_seen.hpp"

#include <cmath>
#include <numbers>

namespace soilclock::advice {

double first_seen_log_likelihood(const FirstSeenRule& rule, const emergence::EmergenceCurve& curve,
                                 int season_day) {
  const int season_days = static_cast<int>(curve.up.size());
  const int noticed = curve.first_day_reaching(rule.share_up.value()).value_or(season_days);
  const double off = (season_day - noticed) / rule.sd_days;
  const double density = std::exp(-0.5 * off * off) / (rule.sd_days * std::sqrt(2.0 * std::numbers::pi));
  return std::log((1.0 - rule.says_nothing) * density + rule.says_nothing / season_days);
}

}  // namespace soilclock::advice
