// SPDX-License-Identifier: MIT
// Whether counts look like anything the ensemble could have brought forth.
#pragma once

#include <cstdint>
#include <vector>

#include "advice/plot_counts.hpp"
#include "core/random.hpp"

namespace soilclock::advice {

/// Two comparisons, in logarithms; low is surprising.
struct Surprise {
  double course = 0.0;  ///< the ensemble's evidence over that of a mean of its own for each visit
  double plots =
      0.0;  ///< evidence of plain plots over that of plots of which a share holds none, whatever the course
};

/// Judges series of counts against what the ensemble itself would give in the same plots: the limits are the
/// points below which so many series simulated under the prior lie. It sees standing counts that fall or
/// jump, and plots of which many hold none while the others hold many. It cannot tell a flat series from a
/// late wave that has hardly begun, nor from one that is over: the total is unknown.
class SurpriseTest {
 public:
  /// `groups` say the plots (their counts are not looked at), `shares` the share up of each member by visit.
  SurpriseTest(std::vector<PlotGroup> groups, const std::vector<std::vector<double>>& shares,
               RandomField random);
  /// Of counts in the plots of the test, group by group.
  Surprise of(std::span<const PlotGroup> groups) const;
  /// One in fifty true series lies below one of the two (one in a hundred below each).
  const Surprise& limit() const { return limit_; }

 private:
  std::vector<PlotGroup> plots_;
  std::vector<CourseMeans> courses_;
  Surprise limit_;
};

}  // namespace soilclock::advice
