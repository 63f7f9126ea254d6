// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string_view>

namespace soilclock {

/// Where a daily value comes from. Missing is never zero.
enum class Quality : std::uint8_t { missing, measured, filled, modelled, forecast, past_year };

/// The word used in every output: "measured", "filled", "past-year", ...
constexpr std::string_view name(Quality quality) {
  switch (quality) {
    case Quality::measured:
      return "measured";
    case Quality::filled:
      return "filled";
    case Quality::modelled:
      return "modelled";
    case Quality::forecast:
      return "forecast";
    case Quality::past_year:
      return "past-year";
    case Quality::missing:
      break;
  }
  return "missing";
}

}  // namespace soilclock
