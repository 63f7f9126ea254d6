// SPDX-License-Identifier: MIT
#include "treatment/delta_t.hpp"

#include <algorithm>
#include <cmath>

namespace soilclock::treatment {

Temperature wet_bulb(Temperature air, double humidity_percent) {
  const double t = air.celsius();
  const double rh = std::clamp(humidity_percent, 5.0, 99.0);
  return Temperature::from_celsius(t * std::atan(0.151977 * std::sqrt(rh + 8.313659)) + std::atan(t + rh) -
                                   std::atan(rh - 1.676331) +
                                   0.00391838 * std::pow(rh, 1.5) * std::atan(0.023101 * rh) - 4.686035);
}

TemperatureDelta delta_t(Temperature air, double humidity_percent) {
  return air - wet_bulb(air, humidity_percent);
}

}  // namespace soilclock::treatment
