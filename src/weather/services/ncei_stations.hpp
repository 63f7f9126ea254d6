// SPDX-License-Identifier: MIT
// Answers of the US climate archive about daily values of stations, in its newer and its older form.
#pragma once

#include <string>
#include <vector>

#include "core/json_reader.hpp"
#include "weather/services/service_answer.hpp"

namespace soilclock::weather {

/// The newer service: flat objects, one a day and station, all values text and padded, what is missing
/// absent. The answer does not name its units; it is asked for metric ones, so C and mm are taken unless the
/// options say otherwise. Throws JsonProblem.
ServiceAnswer read_ncei_days(const std::vector<JsonObject>& days, const std::string& name,
                             const ReadingOptions& options);

/// The older service: one object a value. Whole numbers are tenths of C and mm; a number with a fraction
/// means that other units were asked for, which the answer does not name, so the options must. Throws
/// JsonProblem.
ServiceAnswer read_ncei_values(const std::vector<JsonObject>& values, const std::string& name,
                               const ReadingOptions& options);

}  // namespace soilclock::weather
