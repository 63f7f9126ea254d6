// SPDX-License-Identifier: MIT
#include "thermal/hourly_sum.hpp"

#include <map>

#include "thermal/degree_day.hpp"

namespace soilclock::thermal {

Result<Accumulation> accumulate_readings(std::span<const weather::HourlyObservation> readings,
                                         const DegreeDayRule& rule, DayRange days) {
  std::map<Day, std::vector<Reading>> by_day;
  for (const weather::HourlyObservation& reading : readings) {
    if (reading.air && days.contains(reading.day))
      by_day[reading.day].push_back({reading.minute_of_day, *reading.air});
  }
  Accumulation result;
  result.values = DailySeries<DegreeDays>{days};
  DegreeDays sum;
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    const auto found = by_day.find(day);
    if (found == by_day.end()) {
      ++result.missing_days;
    } else {
      const auto value = degree_days_of_readings(rule, found->second);
      if (!value) return fail(value.error());
      result.values.set(day, *value, Quality::measured);
      sum += *value;
    }
    result.sums.push_back(sum);
  }
  return result;
}

}  // namespace soilclock::thermal
