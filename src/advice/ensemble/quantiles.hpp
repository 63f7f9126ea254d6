// SPDX-License-Identifier: MIT
// Bands of numbers and of dates from the members of an ensemble.
#pragma once

#include <optional>
#include <vector>

#include "core/band.hpp"

namespace soilclock::advice {

/// The 10, 50 and 90 percent points of the values (linear between order statistics). Empty input gives
/// not-a-number.
Band<double> band_of(std::vector<double> values);

/// The same for season days; members in which the event never comes count as after the season, and a point
/// that falls among them is empty. Days are inclusive whole days, so narrow bands cover a little more than 80
/// percent.
Band<std::optional<int>> day_band_of(std::vector<std::optional<int>> days);

}  // namespace soilclock::advice
