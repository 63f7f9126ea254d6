// SPDX-License-Identifier: MIT
// Answers of Open-Meteo: forecast, archive, historical forecast and ensemble of one or many points.
#pragma once

#include <string>
#include <vector>

#include "core/json_reader.hpp"
#include "weather/services/service_answer.hpp"

namespace soilclock::weather {

/// Reads the points of an answer, in the order asked for. Hours are preferred: their instants are cut into
/// days of local standard time. Days of a daily block are used alone as they are printed, and beside hours
/// only for days the hours do not settle and only where the answer's one offset is the standard time of the
/// place, so that both mean the same day (the rain of a daily block runs from 23:00 to 23:00; the difference
/// to midnight is not corrected). A series without any temperature is left out with a doubt; all of them
/// without is a problem. Throws JsonProblem.
ServiceAnswer read_open_meteo(const std::vector<JsonObject>& points, const std::string& name,
                              const ReadingOptions& options);

}  // namespace soilclock::weather
