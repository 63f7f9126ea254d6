// SPDX-License-Identifier: MIT
#pragma once

#include <compare>

#include "core/units.hpp"

namespace soilclock {

/// A depth below the soil surface, meters inside. The estimators are valid from 2.5 to 15 cm.
class Depth {
 public:
  static constexpr Depth from_cm(double cm) { return Depth{cm / 100.0}; }
  static constexpr Depth from_inches(double inches) { return Depth{inches * units::m_in_inch}; }
  constexpr double m() const { return m_; }
  constexpr double cm() const { return m_ * 100.0; }
  constexpr double inches() const { return m_ / units::m_in_inch; }
  friend constexpr auto operator<=>(Depth, Depth) = default;

 private:
  constexpr explicit Depth(double m) : m_{m} {}
  double m_;
};

}  // namespace soilclock
