// SPDX-License-Identifier: MIT
#include "report/svg/scale.hpp"

#include <algorithm>
#include <cmath>

namespace soilclock::report {

std::vector<double> round_ticks(double low, double high, int most) {
  const double span = std::max(high - low, 1e-9);
  double step = std::pow(10.0, std::floor(std::log10(span / most)));
  const auto steps = [&](double size) { return std::ceil(high / size) - std::floor(low / size); };
  for (const double factor : {1.0, 2.0, 5.0, 10.0, 20.0}) {
    if (steps(step * factor) > most) continue;
    step *= factor;
    break;
  }
  const auto first = static_cast<long>(std::floor(low / step));
  const auto last = std::max(static_cast<long>(std::ceil(high / step)), first + 1);
  std::vector<double> ticks;
  for (long i = first; i <= last; ++i) ticks.push_back(static_cast<double>(i) * step);
  return ticks;
}

double TimeScale::held(Day day) const { return (*this)(std::clamp(day, days_.begin(), days_.end())); }

std::vector<Day> month_starts(DayRange days) {
  std::vector<Day> starts;
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    if (civil(day).day == 1) starts.push_back(day);
  }
  return starts;
}

std::vector<Day> mondays(DayRange days) {
  std::vector<Day> result;
  for (Day day = monday_of(days.begin() + Days{6}); day < days.end(); day += one_week) result.push_back(day);
  return result;
}

}  // namespace soilclock::report
