// SPDX-License-Identifier: MIT
// How hard soil holds its water: the work to free it, as a pressure.
#pragma once

#include <cmath>
#include <compare>
#include <limits>

#include "core/units.hpp"

namespace soilclock {

/// Matric potential, MPa inside: 0 is saturated, drier soil is more negative.
class WaterPotential {
 public:
  /// Unknown.
  constexpr WaterPotential() = default;
  static constexpr WaterPotential from_mpa(double mpa) { return WaterPotential{mpa}; }
  /// The suction of a hanging column of water; -100 cm is about -0.01 MPa.
  static constexpr WaterPotential from_cm_water(double cm) {
    return WaterPotential{cm * units::mpa_in_cm_water};
  }
  static constexpr WaterPotential unknown() { return WaterPotential{}; }

  constexpr double mpa() const { return mpa_; }
  bool known() const { return !std::isnan(mpa_); }

  friend constexpr auto operator<=>(WaterPotential, WaterPotential) = default;

 private:
  constexpr explicit WaterPotential(double mpa) : mpa_{mpa} {}
  double mpa_ = std::numeric_limits<double>::quiet_NaN();
};

}  // namespace soilclock
