// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "core/dates.hpp"

namespace soilclock {

/// Every band of the program is an 80 percent band: one truth in ten below low, one in ten above high.
inline constexpr double band_level = 0.8;
inline constexpr double band_low_quantile = 0.1;
inline constexpr double band_high_quantile = 0.9;

/// Low, middle (median) and high of an 80 percent band.
template <class Value>
struct Band {
  Value low{};
  Value middle{};
  Value high{};
};

/// A date with its early and late bound; empty where the event does not come within the season.
using DateBand = Band<std::optional<Day>>;

}  // namespace soilclock
