// SPDX-License-Identifier: MIT
// Emergence is counted in days of a season, so that New Year breaks nothing and both hemispheres read alike.
#pragma once

#include "core/dates.hpp"
#include "core/place.hpp"

namespace soilclock {

/// When the season of a target starts: fall species at midsummer, summer annuals at midwinter.
enum class SeasonKind {
  fall,   ///< 21 June north, 21 December south
  summer  ///< 1 January north, 1 July south
};

/// One season: its first day (season day 0) to the day before the next one starts.
struct Season {
  SeasonKind kind = SeasonKind::fall;
  Hemisphere hemisphere = Hemisphere::north;
  Day first{};

  Day end() const;  ///< first day of the next season
  DayRange days() const { return {first, end()}; }
  int length() const { return days().size(); }
  int day_of_season(Day day) const { return static_cast<int>((day - first).count()); }
  Season next() const;
  Season previous() const;
};

/// The season a day lies in.
Season season_of(Day day, SeasonKind kind, Hemisphere hemisphere);

/// Day of year 1..366 as a formula written for the northern year wants it: the day itself in the north, the
/// day half a year away in the south (1 July = 1). Off by at most one day after a leap day.
int northern_day_of_year(Day day, Hemisphere hemisphere);

}  // namespace soilclock
