// SPDX-License-Identifier: MIT
// Short words for temperatures and days of temperatures, as the tests of thermal time write them.
#pragma once

#include <cmath>
#include <vector>

#include "core/series.hpp"
#include "core/temperature.hpp"

namespace soilclock::tests {

inline Temperature c(double celsius) { return Temperature::from_celsius(celsius); }

/// One temperature a day from `first` on; a day that is not a number stays empty.
inline DailySeries<Temperature> days_from(Day first, const std::vector<double>& celsius) {
  DailySeries<Temperature> result{{first, first + Days{static_cast<int>(celsius.size())}}};
  for (std::size_t i = 0; i < celsius.size(); ++i) {
    if (!std::isnan(celsius[i]))
      result.set(first + Days{static_cast<int>(i)}, c(celsius[i]), Quality::measured);
  }
  return result;
}

}  // namespace soilclock::tests
