// SPDX-License-Identifier: MIT
#include "advice/answer/season_weeks.hpp"

#include <algorithm>

namespace soilclock::advice {

namespace {

Temperature mean_soil(std::span<const SeasonDay> days) {
  double sum_c = 0.0;
  int known = 0;
  for (const SeasonDay& day : days) {
    if (!day.soil_5cm.known()) continue;
    sum_c += day.soil_5cm.celsius();
    ++known;
  }
  return known == 0 ? Temperature::unknown() : Temperature::from_celsius(sum_c / known);
}

std::optional<Rain> rain_sum(std::span<const SeasonDay> days) {
  Rain sum = Rain::from_mm(0.0);
  for (const SeasonDay& day : days) {
    if (!day.rain || !day.rain->known()) return std::nullopt;
    sum = sum + *day.rain;
  }
  return sum;
}

}  // namespace

std::vector<SeasonWeek> season_weeks(std::span<const SeasonDay> season, DayRange days) {
  std::vector<SeasonWeek> weeks;
  for (std::size_t i = 0; i + week_days <= season.size(); ++i) {
    const Day monday = season[i].day;
    if (monday != monday_of(monday) || !days.contains(monday) || !days.contains(monday + Days{6})) continue;
    const std::span<const SeasonDay> week = season.subspan(i, week_days);
    SeasonWeek row;
    row.week_of = monday;
    if (i > 0) {  // the state on a morning is that at the end of the day before
      row.emerged_percent = season[i - 1].emerged_percent;
      row.young_percent = season[i - 1].young_percent.middle;
      row.older_percent = season[i - 1].older_percent.middle;
    }
    row.soil_5cm = mean_soil(week);
    row.rain = rain_sum(week);
    weeks.push_back(row);
  }
  return weeks;
}

}  // namespace soilclock::advice
