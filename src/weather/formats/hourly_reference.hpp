// SPDX-License-Identifier: MIT
// Hourly files of the US climate reference network (product hourly02): 38 columns, no heading.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "weather/parsed_file.hpp"

namespace soilclock::weather {

/// Reads such a file if the text is one: highest and lowest temperature of each hour, rain, humidity, soil at
/// 5 to 100 cm as daily means, place from the columns. Stamps close their hour in local standard time, so
/// 0000 closes the day before. Nothing when the first line has another shape; a line that breaks the shape
/// later gives outcome error. Source: network's readme of product hourly02 (Diamond et al. 2013, BAMS 94,
/// 485-498); basis of the column list: memory.
std::optional<ParsedFile> read_reference_hours(std::string_view text, const std::string& file,
                                               const ReadingOptions& options);

}  // namespace soilclock::weather
