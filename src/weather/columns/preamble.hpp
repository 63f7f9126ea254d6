// SPDX-License-Identifier: MIT
// What the lines ahead of a table say: where the station stands, which clock it keeps, what the headings
// mean.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/place.hpp"

namespace soilclock::weather {

struct Preamble {
  std::optional<Place> place;
  /// "local standard time", "UTC", "local solar time"; empty when the lines do not say.
  std::string day_definition;
  /// A missing-value number the lines announce.
  std::optional<double> missing_code;
  std::vector<std::string_view> lines;
};

/// Reads the lines ahead of the heading (comment marks allowed). Lines that say nothing known are kept and
/// unused.
Preamble read_preamble(const std::vector<std::string_view>& lines);

/// What a legend line says about a heading ("maxtp:  -  Maximum Air Temperature (C)"), empty when there is
/// none.
std::string_view legend_text(const Preamble& preamble, std::string_view heading);

/// The place if both coordinates are on the globe.
std::optional<Place> checked_place(double latitude_deg, double longitude_deg,
                                   std::optional<double> elevation_m);

}  // namespace soilclock::weather
