// SPDX-License-Identifier: MIT
#include "soil/evapotranspiration.hpp"

#include <algorithm>
#include <cmath>

#include "soil/radiation.hpp"

namespace soilclock::soil {

Rain reference_evapotranspiration(Temperature mean, TemperatureDelta range, double latitude_deg,
                                  int day_of_year) {
  constexpr double mm_per_mj_m2 = 0.408;
  const double radiation_mm = mm_per_mj_m2 * extraterrestrial_radiation_mj_m2(latitude_deg, day_of_year);
  const double warmth = std::max(0.0, mean.celsius() + 17.8);
  return Rain::from_mm(0.0023 * warmth * std::sqrt(std::max(0.0, range.kelvin())) * radiation_mm);
}

}  // namespace soilclock::soil
