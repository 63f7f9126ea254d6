// SPDX-License-Identifier: MIT
// Daily files of the US climate reference network (product daily01): 28 columns, no heading.
#pragma once

#include <optional>
#include <string_view>

#include "weather/parsed_file.hpp"

namespace soilclock::weather {

/// Reads such a file if the text is one: air extremes, rain, soil at 5, 10, 20, 50 and 100 cm, days of local
/// standard time, place from the columns. Nothing when the first line has another shape; a line that breaks
/// the shape later gives outcome error. Source: network's readme of product daily01: temperatures in C, rain
/// in mm, missing -9999.
std::optional<ParsedFile> read_reference_station(std::string_view text, const std::string& file,
                                                 const ReadingOptions& options);

}  // namespace soilclock::weather
