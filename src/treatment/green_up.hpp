// SPDX-License-Identifier: MIT
// Green-up in possible seasons, of which soil is all that is known.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/dates.hpp"
#include "core/place.hpp"
#include "core/temperature.hpp"
#include "treatment/turf_state.hpp"

namespace soilclock::treatment {

/// What the turf was on a morning, seen or estimated from known weather.
struct KnownTurf {
  TurfState state = TurfState::unknown;
  Day on{};
};

/// When warm-season turf is likely breaking dormancy or greening up, by soil alone and one way. Made once for
/// the days of a season, then asked for each soil the season may have.
class GreenUp {
 public:
  /// `rules` must outlive this.
  GreenUp(DayRange days, Hemisphere hemisphere, const TurfRules& rules);

  /// `soil` holds the daily means, as many as there are days or none. Green-up begins in spring on the first
  /// morning after `run_days` days at or above `breaking_soil` and lasts until a week's mean reaches
  /// `green_soil`, or to the end of spring or of the days. Empty when it never begins, as in soil of which no
  /// week before was below `slowing_soil`: such turf did not go dormant. With `known`, green-up goes on from
  /// what the turf was on that morning; it does not begin in a spring in which the turf was known as green.
  DayRange in(std::span<const Temperature> soil, const std::optional<KnownTurf>& known = {}) const;

 private:
  DayRange days_;
  const TurfRules& rules_;
  std::vector<char> spring_;  ///< by day; 1 where warm-season turf may wake
  /// By day outside spring: the day from which on the soil counts for the next spring, or the day itself.
  std::vector<std::size_t> next_;
};

}  // namespace soilclock::treatment
