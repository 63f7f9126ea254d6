// SPDX-License-Identifier: MIT
// Reading of the parts that files of emergence models and targets have in common. Every function throws
// JsonProblem at the place of the fault, as JsonObject does.
#pragma once

#include <string>
#include <string_view>

#include "core/json_reader.hpp"
#include "emergence/emergence_model.hpp"

namespace soilclock::emergence {

/// "MM-DD", days up to 28.
MonthDay read_month_day(const JsonObject& object, std::string_view key);

/// The scale of a sum; its numbers stand on the basis of the file.
ThermalScale read_scale(const JsonObject& object, std::string_view key, Basis of_file);

/// Upper-case letters and digits, five of them, as EPPO codes of plants are.
std::string read_eppo_code(const JsonObject& object, std::string_view key);

}  // namespace soilclock::emergence
