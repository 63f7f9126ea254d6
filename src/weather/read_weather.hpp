// SPDX-License-Identifier: MIT
// The way in: any weather text the program knows becomes a parsed file.
#pragma once

#include <string>
#include <string_view>

#include "weather/parsed_file.hpp"

namespace soilclock::weather {

/// Reads any weather text the program knows. Never throws; a text it cannot use gives outcome error.
ParsedFile read_weather_text(std::string_view bytes, const std::string& file, const ReadingOptions& options);

}  // namespace soilclock::weather
