// SPDX-License-Identifier: MIT
// Water that reached the ground: rain, melted snow or irrigation, as a depth.
#pragma once

#include <cmath>
#include <compare>
#include <limits>

namespace soilclock {

/// A depth of water, millimetres inside. Negative depths are refused where files are read.
class Rain {
 public:
  /// Unknown; a dry day is Rain::from_mm(0), said explicitly.
  constexpr Rain() = default;
  static constexpr Rain from_mm(double mm) { return Rain{mm}; }
  static constexpr Rain from_inches(double inches) { return Rain{inches * 25.4}; }
  static constexpr Rain unknown() { return Rain{}; }

  constexpr double mm() const { return mm_; }
  constexpr double inches() const { return mm_ / 25.4; }
  bool known() const { return !std::isnan(mm_); }

  friend constexpr auto operator<=>(Rain, Rain) = default;
  friend constexpr Rain operator+(Rain a, Rain b) { return Rain{a.mm_ + b.mm_}; }

 private:
  constexpr explicit Rain(double mm) : mm_{mm} {}
  double mm_ = std::numeric_limits<double>::quiet_NaN();
};

}  // namespace soilclock
