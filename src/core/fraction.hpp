// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <compare>

namespace soilclock {

/// A share of a whole, 0..1. Percent only exists at the edge, so that no factor of 100 goes unseen.
class Fraction {
 public:
  constexpr Fraction() = default;
  /// Values outside 0..1 are clamped: a share beyond the whole is rounding, never information.
  static constexpr Fraction of(double share) { return Fraction{std::clamp(share, 0.0, 1.0)}; }
  static constexpr Fraction from_percent(double percent) { return of(percent / 100.0); }
  constexpr double value() const { return share_; }
  constexpr double percent() const { return share_ * 100.0; }
  friend constexpr auto operator<=>(Fraction, Fraction) = default;

 private:
  constexpr explicit Fraction(double share) : share_{share} {}
  double share_ = 0.0;
};

}  // namespace soilclock
