// SPDX-License-Identifier: MIT
// One block of an answer, "hourly" or "daily": its times and its columns in the units of this program.
#pragma once

#include <string>
#include <vector>

#include "core/json_reader.hpp"
#include "core/time_zone.hpp"
#include "weather/services/open_meteo_names.hpp"

namespace soilclock::weather {

/// One column; values of quantities that are used are converted, those of others are not kept.
struct AnswerColumn {
  std::string key;  ///< as it stands in the answer
  AnswerName name;
  Unit unit = Unit::none;      ///< as sent
  std::vector<double> values;  ///< Celsius, mm, percent, m/s; not-a-number for null

  /// At least one value is a number.
  bool any_number() const;
};

struct AnswerBlock {
  std::vector<Instant> stamps;  ///< hourly: instants of UTC
  std::vector<Day> days;        ///< daily: the dates as printed
  std::vector<AnswerColumn> columns;

  /// The column of a quantity in one series, or null.
  const AnswerColumn* find(Quantity quantity, const RunName& run) const;
};

/// Reads the block `name` of a point. Times are "iso8601" or "unixtime" (then the offset is added and the
/// date read as UTC, so that a date never depends on the rules of a zone). Throws JsonProblem: no units, a
/// unit not known here, lists of different length, times that do not rise, values that are no numbers.
AnswerBlock read_answer_block(const JsonObject& point, std::string_view name, std::chrono::seconds offset);

}  // namespace soilclock::weather
