// SPDX-License-Identifier: MIT
#include "emergence/season_drivers.hpp"

namespace soilclock::emergence {

std::vector<Temperature> trailing_week(std::span<const Temperature> daily) {
  std::vector<Temperature> week;
  if (daily.size() <= static_cast<std::size_t>(lead_in_days)) return week;
  week.reserve(daily.size() - lead_in_days);
  for (std::size_t i = lead_in_days; i < daily.size(); ++i) {
    double sum = 0.0;
    for (std::size_t j = i - 6; j <= i; ++j) sum += daily[j].celsius();
    week.push_back(Temperature::from_celsius(sum / 7.0));
  }
  return week;
}

std::vector<Rain> week_of_water(std::span<const Rain> rain, const Irrigation& irrigation, int days_needed) {
  std::vector<Rain> week;
  week.reserve(rain.size());
  for (std::size_t i = lead_in_days; i < rain.size(); ++i) {
    double sum = 0.0;
    int known = 0;
    for (std::size_t j = i - 6; j <= i; ++j) {
      if (!rain[j].known()) continue;
      sum += rain[j].mm();
      ++known;
    }
    const bool enough = known >= days_needed;
    week.push_back(enough ? Rain::from_mm(sum * 7.0 / known + irrigation.mm_per_week) : Rain::unknown());
  }
  return week;
}

}  // namespace soilclock::emergence
