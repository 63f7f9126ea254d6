// SPDX-License-Identifier: MIT
#include "thermal/crossing.hpp"

#include <algorithm>

namespace soilclock::thermal {

namespace {

bool counts(Temperature value, const CrossingRule& rule) {
  return rule.side == Side::at_or_below ? value <= rule.level : value >= rule.level;
}

}  // namespace

DailySeries<Temperature> trailing_mean(const DailySeries<Temperature>& series, DayRange days, int needed) {
  DailySeries<Temperature> result{days};
  for (Day day = result.days().begin(); day < result.days().end(); day += Days{1}) {
    double sum = 0.0;
    int present = 0;
    Quality weakest = Quality::missing;
    for (int back = 0; back < trailing_days; ++back) {
      const Day used = day - Days{back};
      if (const auto value = series.at(used)) {
        sum += value->celsius();
        ++present;
        weakest = std::max(weakest, series.quality(used));
      }
    }
    if (present >= needed) result.set(day, Temperature::from_celsius(sum / present), weakest);
  }
  return result;
}

std::optional<Day> first_run(const DailySeries<Temperature>& series, const CrossingRule& rule,
                             DayRange within) {
  int run = 0;
  for (Day day = within.begin(); day < within.end(); day += Days{1}) {
    const auto value = series.at(day);
    run = value && counts(*value, rule) ? run + 1 : 0;
    if (run == rule.run_days) return day - Days{run - 1};
  }
  return std::nullopt;
}

std::optional<Day> last_crossing(const DailySeries<Temperature>& series, const CrossingRule& rule,
                                 DayRange within) {
  std::optional<Day> last;
  std::optional<bool> before;
  for (Day day = within.begin(); day < within.end(); day += Days{1}) {
    const auto value = series.at(day);
    if (!value) continue;
    const bool now = counts(*value, rule);
    if (now && before == false) last = day;
    before = now;
  }
  return last;
}

int reversals(const DailySeries<Temperature>& series, const CrossingRule& rule, DayRange within) {
  const auto start = first_run(series, rule, within);
  if (!start) return 0;
  int count = 0;
  bool before = true;
  for (Day day = *start; day < within.end(); day += Days{1}) {
    const auto value = series.at(day);
    if (!value) continue;
    const bool now = counts(*value, rule);
    if (before && !now) ++count;
    before = now;
  }
  return count;
}

}  // namespace soilclock::thermal
