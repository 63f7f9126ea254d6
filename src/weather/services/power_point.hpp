// SPDX-License-Identifier: MIT
// Answers of NASA POWER about the days of one point.
#pragma once

#include <string>

#include "core/json_reader.hpp"
#include "weather/services/service_answer.hpp"

namespace soilclock::weather {

/// Reads T2M_MAX, T2M_MIN and PRECTOTCORR by the day. The missing code is the header's, compared as a number
/// before any conversion; the units are those the answer names; the days are of local solar time or of UTC,
/// as the header says. Messages of the service become doubts. Throws JsonProblem.
ServiceAnswer read_power_point(const JsonObject& answer, const std::string& name,
                               const ReadingOptions& options);

}  // namespace soilclock::weather
