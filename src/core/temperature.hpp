// SPDX-License-Identifier: MIT
// A temperature (a point on the scale) and a difference of two temperatures are different things.
#pragma once

#include <cmath>
#include <compare>
#include <limits>

#include "core/units.hpp"

namespace soilclock {

/// A difference of two temperatures, in kelvin (= Celsius degrees). Vector algebra is allowed.
class TemperatureDelta {
 public:
  constexpr TemperatureDelta() = default;
  static constexpr TemperatureDelta from_kelvin(double kelvin) { return TemperatureDelta{kelvin}; }

  constexpr double kelvin() const { return kelvin_; }
  /// In Fahrenheit degrees: x 9/5, no 32.
  constexpr double fahrenheit_degrees() const { return kelvin_ * units::fahrenheit_degrees_in_kelvin; }

  friend constexpr auto operator<=>(TemperatureDelta, TemperatureDelta) = default;
  friend constexpr TemperatureDelta operator+(TemperatureDelta a, TemperatureDelta b) {
    return TemperatureDelta{a.kelvin_ + b.kelvin_};
  }
  friend constexpr TemperatureDelta operator-(TemperatureDelta a, TemperatureDelta b) {
    return TemperatureDelta{a.kelvin_ - b.kelvin_};
  }
  friend constexpr TemperatureDelta operator-(TemperatureDelta a) { return TemperatureDelta{-a.kelvin_}; }
  friend constexpr TemperatureDelta operator*(TemperatureDelta a, double factor) {
    return TemperatureDelta{a.kelvin_ * factor};
  }
  friend constexpr TemperatureDelta operator*(double factor, TemperatureDelta a) { return a * factor; }
  friend constexpr TemperatureDelta operator/(TemperatureDelta a, double divisor) {
    return TemperatureDelta{a.kelvin_ / divisor};
  }

 private:
  constexpr explicit TemperatureDelta(double kelvin) : kelvin_{kelvin} {}
  double kelvin_ = 0.0;
};

/// A temperature, Celsius inside. Two points cannot be added; their difference is a TemperatureDelta.
class Temperature {
 public:
  /// Unknown, so that a forgotten check shows as not-a-number and never as 0 C.
  constexpr Temperature() = default;
  static constexpr Temperature from_celsius(double celsius) { return Temperature{celsius}; }
  static constexpr Temperature from_fahrenheit(double fahrenheit) {
    return Temperature{(fahrenheit - units::freezing_fahrenheit) / units::fahrenheit_degrees_in_kelvin};
  }
  static constexpr Temperature from_kelvin(double kelvin) {
    return Temperature{kelvin - units::freezing_kelvin};
  }
  static constexpr Temperature unknown() { return Temperature{}; }

  constexpr double celsius() const { return celsius_; }
  constexpr double fahrenheit() const {
    return celsius_ * units::fahrenheit_degrees_in_kelvin + units::freezing_fahrenheit;
  }
  constexpr double kelvin() const { return celsius_ + units::freezing_kelvin; }
  bool known() const { return !std::isnan(celsius_); }

  friend constexpr auto operator<=>(Temperature, Temperature) = default;
  friend constexpr TemperatureDelta operator-(Temperature a, Temperature b) {
    return TemperatureDelta::from_kelvin(a.celsius_ - b.celsius_);
  }
  friend constexpr Temperature operator+(Temperature a, TemperatureDelta b) {
    return Temperature{a.celsius_ + b.kelvin()};
  }
  friend constexpr Temperature operator-(Temperature a, TemperatureDelta b) {
    return Temperature{a.celsius_ - b.kelvin()};
  }

 private:
  constexpr explicit Temperature(double celsius) : celsius_{celsius} {}
  double celsius_ = std::numeric_limits<double>::quiet_NaN();
};

/// Half way between two temperatures; unknown when either is.
constexpr Temperature midpoint(Temperature a, Temperature b) { return a + (b - a) * 0.5; }

}  // namespace soilclock
