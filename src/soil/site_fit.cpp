// SPDX-License-Identifier: MIT
#include "soil/site_fit.hpp"

#include <cmath>
#include <limits>

namespace soilclock::soil {

FittedSoil fit_to_readings(const SoilTemperature& soil, Hemisphere hemisphere) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  FittedSoil result{{}, 0, nan, nan};
  if (soil.estimate.empty()) return result;
  const ConditionedSoilError error{soil.error, hemisphere, soil.estimate.days(), soil.readings};
  for (Day day = soil.estimate.first(); day <= soil.estimate.last(); day += Days{1}) {
    if (const auto estimate = soil.estimate.at(day))
      result.fitted.set(day, *estimate - error.mean(day), Quality::modelled);
  }
  double before = 0.0;
  double after = 0.0;
  for (const SoilReading& reading : soil.readings) {
    if (!soil.estimate.at(reading.day) || reading.day <= soil.estimate.first() ||
        reading.day <= soil.readings.front().day)
      continue;
    const TemperatureDelta foreseen = error.mean_then(reading.day - Days{1});
    before += std::pow(reading.estimate_minus_reading.kelvin(), 2);
    after += std::pow((reading.estimate_minus_reading - foreseen).kelvin(), 2);
    ++result.scored;
  }
  if (result.scored > 0) {
    result.rmse_before_c = std::sqrt(before / result.scored);
    result.rmse_after_c = std::sqrt(after / result.scored);
  }
  return result;
}

}  // namespace soilclock::soil
