// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

namespace soilclock {

enum class Hemisphere { north, south };

/// Where a site lies: degrees north and east (negative: south, west), elevation in metres where known.
struct Place {
  double latitude_deg = 0.0;
  double longitude_deg = 0.0;
  std::optional<double> elevation_m;
  Hemisphere hemisphere() const { return latitude_deg < 0.0 ? Hemisphere::south : Hemisphere::north; }
};

}  // namespace soilclock
