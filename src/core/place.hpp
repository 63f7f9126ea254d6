// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <optional>

namespace soilclock {

enum class Hemisphere { north, south };

/// Where a site lies: degrees north and east (negative: south, west), elevation in meters where known.
struct Place {
  double latitude_deg = 0.0;
  double longitude_deg = 0.0;
  std::optional<double> elevation_m;
  Hemisphere hemisphere() const { return latitude_deg < 0.0 ? Hemisphere::south : Hemisphere::north; }
};

/// Degrees of longitude between two meridians, the shorter way round.
inline double degrees_apart(double a, double b) { return std::abs(std::remainder(a - b, 360.0)); }

/// Whether two places lie within so many degrees of each other, in latitude and in longitude.
inline bool lie_within(const Place& a, const Place& b, double degrees) {
  return std::abs(a.latitude_deg - b.latitude_deg) <= degrees &&
         degrees_apart(a.longitude_deg, b.longitude_deg) <= degrees;
}

/// The weather of a station farther than this (about 300 km) is not that of the site. Judgment.
inline constexpr double farthest_station_deg = 3.0;

}  // namespace soilclock
