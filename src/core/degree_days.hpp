// SPDX-License-Identifier: MIT
// Sums of temperature over time. A sum only means something together with the scale that made it.
#pragma once

#include <compare>
#include <limits>
#include <optional>
#include <string>

#include "core/depth.hpp"
#include "core/temperature.hpp"

namespace soilclock {

/// A thermal sum in Celsius degree-days. It converts as a difference: x 1.8 for Fahrenheit degree-days,
/// no 32.
class DegreeDays {
 public:
  constexpr DegreeDays() = default;
  static constexpr DegreeDays from_celsius_days(double value) { return DegreeDays{value}; }
  static constexpr DegreeDays unknown() { return DegreeDays{std::numeric_limits<double>::quiet_NaN()}; }
  constexpr double celsius_days() const { return value_; }
  constexpr double fahrenheit_days() const { return value_ * units::fahrenheit_degrees_in_kelvin; }
  friend constexpr auto operator<=>(DegreeDays, DegreeDays) = default;
  friend constexpr DegreeDays operator+(DegreeDays a, DegreeDays b) {
    return DegreeDays{a.value_ + b.value_};
  }
  friend constexpr DegreeDays operator-(DegreeDays a, DegreeDays b) {
    return DegreeDays{a.value_ - b.value_};
  }
  friend constexpr DegreeDays operator*(DegreeDays a, double factor) { return DegreeDays{a.value_ * factor}; }
  DegreeDays& operator+=(DegreeDays other) {
    value_ += other.value_;
    return *this;
  }

 private:
  constexpr explicit DegreeDays(double value) : value_{value} {}
  double value_ = 0.0;
};

/// Which temperature a sum was made from.
enum class ThermalDriver { air, soil };

/// How a sum was made. Thresholds and sums of unequal scales must not be compared; models that try do not
/// load.
struct ThermalScale {
  Temperature lower;                 ///< base; for cooling sums the temperature counted down from
  std::optional<Temperature> upper;  ///< upper threshold, if any
  std::string method;                ///< "average", "sine", "daily-mean", "cooling", ...
  std::string cutoff = "none";       ///< "none", "horizontal", "intermediate", "vertical"
  std::string start;                 ///< "02-15", "season", ... in the words of the model file
  ThermalDriver driver = ThermalDriver::air;
  std::optional<Depth> depth;  ///< for soil
  friend bool operator==(const ThermalScale&, const ThermalScale&) = default;
};

}  // namespace soilclock
