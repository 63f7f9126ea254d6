// SPDX-License-Identifier: MIT
// Which kind of treatment a week calls for.
#pragma once

#include <string_view>

#include "treatment/cautious_reach.hpp"

namespace soilclock::treatment {

/// hold: too early, or a residual already put down is still working.
enum class WeekKind { hold, pre, pre_post, post, second_pre };

/// "hold", "pre", "pre+post", "post", "second-pre".
std::string_view name(WeekKind kind);

/// Why a week is of its kind.
enum class KindReason {
  too_early,             ///< too little comes up within the look-ahead
  residual_working,      ///< a logged residual is not spent and little is left standing
  residual_is_enough,    ///< a foliar part would add no more than the points allowed
  both_needed,           ///< a foliar part adds more than that
  mostly_up,             ///< emerged share at or above the working threshold
  logged_residual_spent  ///< a logged residual is spent with seedlings still to come
};

struct WeekVerdict {
  WeekKind kind = WeekKind::hold;
  KindReason reason = KindReason::too_early;
  double residual_would_add_points = 0.0;  ///< middle pre+post less middle post, never below 0
  double foliar_would_add_points = 0.0;    ///< middle pre+post less middle pre, never below 0
  double to_come_percent = 0.0;            ///< middle share of the season still to come up
  bool firm = true;                        ///< second-pre: enough is to come to call for it, not only to ask
};

/// The kind of a week by middle reach. A logged residual rules first: spent with enough to come, it calls for
/// a second one (with a foliar part while the main wave runs and that adds more than the points allowed);
/// while it works and no kind reaches more than the points allowed, hold. Then the emerged share: below the
/// hold threshold within the look-ahead hold, from the working threshold on post, whatever a residual would
/// add. Else pre while pre+post adds no more than the points allowed. Source of the thresholds:
/// models/treatment/reach_settings.json.
WeekVerdict kind_of_week(const WeekReach& week, const ReachRules& rules, const ReachSettings& settings);

}  // namespace soilclock::treatment
