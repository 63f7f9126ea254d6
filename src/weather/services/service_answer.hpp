// SPDX-License-Identifier: MIT
// Answers of open weather services, text to series. Which service an answer comes from is seen from its
// shape.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/problem.hpp"
#include "core/time_zone.hpp"
#include "weather/parsed_file.hpp"

namespace soilclock::weather {

/// One series of an answer: one point of those asked for, one model, one member of an ensemble.
struct AnswerSeries {
  int point = 0;         ///< position in the list of points asked for, from 0
  std::string model;     ///< as the answer names it; empty when it names none
  int member = 0;        ///< 0 is the control run
  std::string location;  ///< the service's own name of the point: a number, a station; empty when it has none
  ParsedFile reading;
};

struct ServiceAnswer {
  std::string service;               ///< "open-meteo", "nws", "ncei", "power"
  std::vector<AnswerSeries> series;  ///< never empty
  std::optional<Instant> issued;     ///< when the service made it, where the answer says so
};

/// Reads an answer in JSON. `name` stands for it in problems and doubts. Hours are taken as instants of UTC
/// and cut into days of local standard time: by the zone of the options, else by the zone the answer names,
/// else by the offset that belongs to the longitude (whole hours, said in a doubt). Values of grids and
/// models have Quality::modelled, those of stations Quality::measured; which of them were still to come when
/// the answer was given is for the caller to say. Soil temperatures of models are not taken: they are
/// estimates like our own. Problems (data family): no JSON or a cut body, an error answer of the service
/// (with the reason it gives), the shape of no service known here, a unit we do not know, arrays of different
/// length, no temperature at all.
Result<ServiceAnswer> read_service_answer(std::string_view bytes, const std::string& name,
                                          const ReadingOptions& options);

}  // namespace soilclock::weather
