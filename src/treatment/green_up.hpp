// SPDX-License-Identifier: MIT
// Green-up in possible seasons, of which soil is all that is known.
#pragma once

#include <optional>
#include <span>

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

/// The days on which warm-season turf is likely breaking dormancy or greening up, by soil alone and one way.
/// `soil` holds daily means from `first` on; span one season. Green-up begins in spring on the first morning
/// after `run_days` days at or above `breaking_soil` and lasts until a week's mean reaches `green_soil`, or
/// to the end of spring or of the days. Empty when it never begins, as in soil of which no week before was
/// below `slowing_soil`: such turf did not go dormant. With `known`, green-up goes on from what the turf was
/// on that morning; it does not begin in a spring in which the turf was known as green.
DayRange green_up_days(std::span<const Temperature> soil, Day first, Hemisphere hemisphere,
                       const TurfRules& rules, const std::optional<KnownTurf>& known = {});

}  // namespace soilclock::treatment
