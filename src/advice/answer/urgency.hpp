// SPDX-License-Identifier: MIT
// Which site and grass is next, where there are many.
#pragma once

#include <span>
#include <vector>

#include "advice/answer/answer.hpp"

namespace soilclock::advice {

/// A target of one of the answers, by index.
struct RankedTarget {
  std::size_t site = 0;
  std::size_t target = 0;
};

/// Whether something is still to be decided for a target this season.
bool still_open(const TargetAnswer& target);

/// What a target is ranked by: points lost if nothing is done for three weeks (none when it is held after a
/// treatment), and how unsure its expected control is (infinite without one).
struct Urgency {
  double lost = 0.0;
  double spread = 0.0;
};

Urgency urgency_of(const TargetAnswer& target);

/// Whether one target comes before another: more to lose, on a tie the surer one.
bool more_urgent(const Urgency& one, const Urgency& other);

/// The targets still open, those first that lose most if nothing is done for three weeks; on a tie the
/// surer one (narrower band of expected control), then in the order of the sites. A target held after a
/// treatment loses nothing.
std::vector<RankedTarget> by_urgency(std::span<const SiteAnswer> answers);

}  // namespace soilclock::advice
