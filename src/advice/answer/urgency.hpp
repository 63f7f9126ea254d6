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

/// The targets still open, those first that lose most if nothing is done for three weeks; on a tie the
/// surer one (narrower band of expected control), then in the order of the sites. A target held after a
/// treatment loses nothing.
std::vector<RankedTarget> by_urgency(std::span<const SiteAnswer> answers);

}  // namespace soilclock::advice
