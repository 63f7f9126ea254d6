// SPDX-License-Identifier: MIT
#include "core/season.hpp"

namespace soilclock {

namespace {

Day season_start(int year, SeasonKind kind, Hemisphere hemisphere) {
  const bool north = hemisphere == Hemisphere::north;
  if (kind == SeasonKind::fall) return north ? make_day(year, 6, 21) : make_day(year, 12, 21);
  return north ? make_day(year, 1, 1) : make_day(year, 7, 1);
}

}  // namespace

Day Season::end() const { return season_start(civil(first).year + 1, kind, hemisphere); }

Season Season::next() const { return {kind, hemisphere, end()}; }

Season Season::previous() const {
  return {kind, hemisphere, season_start(civil(first).year - 1, kind, hemisphere)};
}

Season season_of(Day day, SeasonKind kind, Hemisphere hemisphere) {
  const int year = civil(day).year;
  const Day start = season_start(year, kind, hemisphere);
  return {kind, hemisphere, day < start ? season_start(year - 1, kind, hemisphere) : start};
}

int northern_day_of_year(Day day, Hemisphere hemisphere) {
  const int doy = day_of_year(day);
  if (hemisphere == Hemisphere::north) return doy;
  return (doy + 183) % 365 + 1;
}

}  // namespace soilclock
