// SPDX-License-Identifier: MIT
// How weather files were read, as JSON and as text.
#pragma once

#include <string>
#include <vector>

#include "weather/parsed_file.hpp"

namespace soilclock::report {

/// The "soilclock-inspection" document, version 1. `with_days` adds every day's values (Celsius, mm).
std::string inspection_json(const std::vector<weather::ParsedFile>& files, bool with_days);

/// One block a file for people: what it is, its span and gaps, its columns, every doubt. Temperatures in
/// Fahrenheit and rain in inches when `us_units`.
std::string inspection_text(const std::vector<weather::ParsedFile>& files, bool with_days, bool us_units);

/// The days of all files as comma-separated values.
std::string inspection_csv(const std::vector<weather::ParsedFile>& files);

/// "ok", "warn" or "error".
std::string_view name(weather::Outcome outcome);

}  // namespace soilclock::report
