// SPDX-License-Identifier: MIT
// One point of an answer: where it is, which clock it keeps, and its blocks.
#pragma once

#include <optional>
#include <string>

#include "core/json_reader.hpp"
#include "core/place.hpp"
#include "core/time_zone.hpp"
#include "weather/services/open_meteo_block.hpp"

namespace soilclock::weather {

struct AnswerPoint {
  std::optional<Place> place;
  std::string location;            ///< the number the service gives it; the first point has none
  std::chrono::seconds offset{0};  ///< one for all times of the answer, that of the moment of the request
  std::string zone_name;           ///< as the answer names it, perhaps empty
  std::optional<TimeZone> zone;    ///< empty when this system does not know it
  std::optional<AnswerBlock> hourly;
  std::optional<AnswerBlock> daily;

  /// The zone of the place as far as the answer names it: plain UTC is what is sent when nobody asked for a
  /// zone.
  std::optional<TimeZone> zone_of_place() const;
};

/// Reads a point. Throws JsonProblem: place, clock, units or blocks are lacking (an answer rewritten on the
/// way), the offset is none that the zone ever keeps, or what read_answer_block refuses.
AnswerPoint read_answer_point(const JsonObject& point);

}  // namespace soilclock::weather
