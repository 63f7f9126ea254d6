// SPDX-License-Identifier: MIT
#include "app/fetch_plan.hpp"

#include <algorithm>
#include <set>

namespace soilclock::app {

namespace {

constexpr Days short_run{7};

bool settled(const records::StoredDay& day, bool rain_expected, const TimeZone& zone,
             const PlanRules& rules) {
  const Days age = zone.standard_day(day.asked) - day.day;
  const bool whole = day.minimum && day.maximum && (day.rain || !rain_expected);
  const Days provisional{rules.provisional_days};
  return age > (whole ? provisional : std::max(provisional, hole_may_close));
}

/// Runs of needed days, short runs between them included.
std::vector<DayRange> runs(const std::vector<Day>& needed) {
  std::vector<DayRange> result;
  for (const Day day : needed) {
    if (!result.empty() && day - result.back().end() <= short_run)
      result.back() = {result.back().begin(), day + Days{1}};
    else
      result.emplace_back(day, day + Days{1});
  }
  return result;
}

Day next_cut(Day day, int years) {
  const int year = civil(day).year;
  return make_day(year - year % years + years, 1, 1);
}

}  // namespace

std::vector<DayRange> days_to_ask(const std::vector<records::StoredDay>& stored, DayRange wanted,
                                  const TimeZone& zone, const PlanRules& rules) {
  // Rain comes later than temperature; a series without any has none to come.
  const bool rain_expected =
      std::any_of(stored.begin(), stored.end(), [](const auto& day) { return day.rain.has_value(); });
  std::set<Day> done;
  for (const records::StoredDay& day : stored) {
    if (settled(day, rain_expected, zone, rules)) done.insert(day.day);
  }
  std::vector<Day> needed;
  for (Day day = wanted.begin(); day < wanted.end(); day += Days{1}) {
    if (!done.contains(day)) needed.push_back(day);
  }
  std::vector<DayRange> pieces;
  for (const DayRange& run : runs(needed)) {
    for (Day begin = run.begin(); begin < run.end();) {
      const Day end = std::min(run.end(), next_cut(begin, rules.years_a_piece));
      pieces.emplace_back(begin, end);
      begin = end;
    }
  }
  return pieces;
}

}  // namespace soilclock::app
