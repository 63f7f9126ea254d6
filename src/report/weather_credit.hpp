// SPDX-License-Identifier: MIT
// Whose weather an answer rests on, how old it is, and the lines its terms ask for: part of every output.
#pragma once

#include <string>
#include <vector>

#include "report/json_values.hpp"
#include "weather/weather_origin.hpp"

namespace soilclock::report {

using Origins = std::vector<weather::WeatherOrigin>;

/// The line a service asks for: attribution with the year the weather was fetched in, and license.
std::string credit_line(const std::string& attribution, const std::string& license, int year);

/// A list of objects: source, service, model, first, last, from, fetched_at, provisional_from, attribution,
/// license.
Json weather_sources_json(const Origins& origins);

/// "Open-Meteo history to 2026-11-24, fetched 2026-11-25 06:12 UTC (today)": one line a series, then one line
/// for each attribution. Empty without origins. Ages are counted from `on`; without it they are left out.
std::vector<std::string> weather_source_lines(const Origins& origins, std::optional<Day> on);

/// The same as an indented list of text.
std::string weather_sources_text(const Origins& origins, std::optional<Day> on);

/// The attributions on one line, for a column of a table.
std::string weather_sources_cell(const Origins& origins);

}  // namespace soilclock::report
