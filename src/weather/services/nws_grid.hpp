// SPDX-License-Identifier: MIT
// Answers of the US weather service: the grid of a forecast (forecastGridData) and what is taken for it.
#pragma once

#include <string>

#include "core/json_reader.hpp"
#include "weather/services/service_answer.hpp"

namespace soilclock::weather {

/// Reads a grid. The day's extremes are those of the layers maxTemperature (belongs to the local date of its
/// daytime) and minTemperature (to the date on which its night ends), not of the hourly layer, from which
/// they may differ by about 1 C; the first interval of either, when it is cut short, is the rest of a running
/// period and no extreme. Rain totals are split by share over days of local standard time, and a day they do
/// not cover is unknown. Temperature, humidity and wind are laid out by the hour; rain is not, since its
/// totals say nothing about single hours. Throws JsonProblem, also for answers of the service that are no
/// grid.
ServiceAnswer read_nws_grid(const JsonObject& answer, const std::string& name, const ReadingOptions& options);

}  // namespace soilclock::weather
