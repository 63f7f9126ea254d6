// SPDX-License-Identifier: MIT
// Water that reached the ground: rain, melted snow or irrigation, as a depth.
#pragma once

#include <cmath>
#include <compare>
#include <limits>

#include "core/units.hpp"

namespace soilclock {

/// A depth of water, millimeters inside. Negative depths are refused where files are read.
class Rain {
 public:
  /// Unknown; a dry day is Rain::from_mm(0), said explicitly.
  constexpr Rain() = default;
  static constexpr Rain from_mm(double mm) { return Rain{mm}; }
  static constexpr Rain from_inches(double inches) { return Rain{inches * units::mm_in_inch}; }
  static constexpr Rain unknown() { return Rain{}; }

  constexpr double mm() const { return mm_; }
  constexpr double inches() const { return mm_ / units::mm_in_inch; }
  bool known() const { return !std::isnan(mm_); }

  friend constexpr auto operator<=>(Rain, Rain) = default;
  friend constexpr Rain operator+(Rain a, Rain b) { return Rain{a.mm_ + b.mm_}; }

 private:
  constexpr explicit Rain(double mm) : mm_{mm} {}
  double mm_ = std::numeric_limits<double>::quiet_NaN();
};

}  // namespace soilclock
