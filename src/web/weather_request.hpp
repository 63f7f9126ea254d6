// SPDX-License-Identifier: MIT
// What a page asks of an open weather service, and whether what came back is an answer. Nothing is sent here.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/problem.hpp"
#include "web/question.hpp"

namespace soilclock::web {

/// The request for the open weather of a place, with what must be known before it is sent, as the JSON object
/// that soilclock.h describes. A mistake in the services that the program ships is a fault.
Result<std::string> weather_request(const PlaceQuestion& question);

/// What is wrong with what came back under an HTTP status (0: nothing did), with a remedy for whoever has the
/// page before them; nothing for a body that may be read.
std::optional<Problem> answer_problem(int status, std::string_view body);

}  // namespace soilclock::web
