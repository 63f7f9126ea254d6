// SPDX-License-Identifier: MIT
// Files of the US climate archive without heading: one line a month and element, or one line a value.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "weather/parsed_file.hpp"

namespace soilclock::weather {

/// Reads a monthly file (".dly": 269 characters a line, 31 groups of value and three flags, tenths) of one
/// station if the text is one, else nothing. Source: the archive's readme (Menne et al. 2012, J. Atmos.
/// Oceanic Technol. 29, 897-910).
std::optional<ParsedFile> read_archive_months(std::string_view text, const std::string& file,
                                              const ReadingOptions& options);

/// Reads lines ID,YYYYMMDD,ELEMENT,VALUE,M,Q,S,HHMM (tenths) if the text holds them, with or without their
/// heading, else nothing. Of several stations the one of the options is read, else the first, with a doubt.
std::optional<ParsedFile> read_archive_values(std::string_view text, const std::string& file,
                                              const ReadingOptions& options);

}  // namespace soilclock::weather
