// SPDX-License-Identifier: MIT
#pragma once

#include <compare>

namespace soilclock {

/// A depth below the soil surface, metres inside. The estimators are valid from 2.5 to 15 cm.
class Depth {
 public:
  static constexpr Depth from_cm(double cm) { return Depth{cm / 100.0}; }
  static constexpr Depth from_inches(double inches) { return Depth{inches * 0.0254}; }
  constexpr double m() const { return m_; }
  constexpr double cm() const { return m_ * 100.0; }
  constexpr double inches() const { return m_ / 0.0254; }
  friend constexpr auto operator<=>(Depth, Depth) = default;

 private:
  constexpr explicit Depth(double m) : m_{m} {}
  double m_;
};

}  // namespace soilclock
