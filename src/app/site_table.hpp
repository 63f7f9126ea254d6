// SPDX-License-Identifier: MIT
// Sites as a table: a course a row, for those who keep them in a spreadsheet.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "site/site_file.hpp"

namespace soilclock::app {

/// Reads comma-separated text with a line of headings: id, latitude, longitude and weather; where wanted
/// name, elevation_m, time_zone, units, group, forecast, probe, targets, turf, irrigated, overseed_on,
/// texture and plan. Several files or targets of a cell stand apart by semicolons; weather from a service is
/// written "service:open-meteo"; plan takes the words of --plan. A row means what the same keys mean in a
/// site file and is refused as strictly, at its line and column (the number of the cell); an empty cell is a
/// key left out.
Result<std::vector<Site>> read_site_table(std::string_view text, const std::string& file,
                                          const std::string& folder);

}  // namespace soilclock::app
