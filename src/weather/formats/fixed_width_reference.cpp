// SPDX-License-Identifier: MIT
#include "weather/formats/fixed_width_reference.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "weather/checks.hpp"
#include "weather/columns/preamble.hpp"
#include "weather/reading_notes.hpp"
#include "weather/table/line_reading.hpp"
#include "weather/table/stamp_parsing.hpp"

namespace soilclock::weather {

namespace {

constexpr std::size_t column_count = 28;
using Fields = std::array<std::string_view, column_count>;

/// Positions, counted from 0.
constexpr std::size_t date_column = 1;
constexpr std::size_t longitude_column = 3;
constexpr std::size_t latitude_column = 4;
constexpr std::size_t maximum_column = 5;
constexpr std::size_t minimum_column = 6;
constexpr std::size_t rain_column = 9;
constexpr std::size_t surface_type_column = 11;
struct SoilColumn {
  std::size_t position;
  double depth_cm;
};
constexpr std::array soil_columns{SoilColumn{23, 5.0}, SoilColumn{24, 10.0}, SoilColumn{25, 20.0},
                                  SoilColumn{26, 50.0}, SoilColumn{27, 100.0}};

bool has_shape(const Fields& fields) {
  const std::string_view type = fields[surface_type_column];
  if (fields[0].size() != 5 || fields[date_column].size() != 8) return false;
  if (type != "R" && type != "C" && type != "U") return false;
  for (std::size_t i = 0; i < column_count; ++i) {
    if (i != surface_type_column && !parse_number(fields[i])) return false;
  }
  return true;
}

std::optional<double> value(const Fields& fields, std::size_t column) {
  const auto number = parse_number(fields[column]);
  // The network writes -9999 and -9999.0; nothing below -999 is a measurement.
  if (!number || *number <= -999.0) return std::nullopt;
  return number;
}

std::vector<ParsedColumn> column_readings() {
  std::vector<ParsedColumn> columns{{"LST_DATE", "date", ""},
                                    {"T_DAILY_MAX", "tmax", "C"},
                                    {"T_DAILY_MIN", "tmin", "C"},
                                    {"P_DAILY_CALC", "rain", "mm"}};
  for (const SoilColumn& soil : soil_columns) {
    columns.push_back({fmt::format("SOIL_TEMP_{}_DAILY", number_text(soil.depth_cm, 0)),
                       fmt::format("soil {} cm", number_text(soil.depth_cm, 0)), "C"});
  }
  return columns;
}

}  // namespace

std::optional<ParsedFile> read_reference_station(std::string_view text, const std::string& file,
                                                 const ReadingOptions& options) {
  Fields fields;
  {
    const std::string_view first = text.substr(0, text.find('\n'));
    if (!split_fields(first, fields) || !has_shape(fields)) return std::nullopt;
  }
  ParsedFile reading;
  reading.file = file;
  reading.step = "daily";
  reading.columns = column_readings();
  reading.daily.day_definition = local_standard_days;
  ReadingNotes notes{file, options};
  ExtremesCheck extremes{false, notes};
  const std::string station{fields[0]};
  LineReader lines{text};
  while (lines.next()) {
    const std::string_view line = lines.line();
    const int line_number = lines.number();
    if (trimmed(line).empty()) continue;
    const bool shaped = split_fields(line, fields) && has_shape(fields);
    const auto stamp = shaped ? parse_stamp(fields[date_column]) : std::nullopt;
    const auto day =
        stamp && stamp->a > 1900 && stamp->b > 0 && stamp->c > 0
            ? checked_day(stamp->a, static_cast<unsigned>(stamp->b), static_cast<unsigned>(stamp->c))
            : std::nullopt;
    if (!day && lines.cut() && line_number > 1) {
      notes.doubt("the last line is cut off and is left out", line_number);
      break;
    }
    if (!day || fields[0] != station) {
      reading.refusal = notes.problem("this line does not have the shape of the lines before it", line_number,
                                      {}, std::string{line}, "28 columns of one station with a date yyyymmdd",
                                      "load the file again");
      return reading;
    }
    if (!reading.place) {
      reading.place =
          checked_place(*parse_number(fields[latitude_column]), *parse_number(fields[longitude_column]), {});
    }
    DailyExtremes pair;
    if (const auto minimum = value(fields, minimum_column))
      pair.minimum = Temperature::from_celsius(*minimum);
    if (const auto maximum = value(fields, maximum_column))
      pair.maximum = Temperature::from_celsius(*maximum);
    pair = extremes.checked(pair, *day, line_number);
    if (pair.minimum) reading.daily.air_min.set(*day, *pair.minimum, Quality::measured);
    if (pair.maximum) reading.daily.air_max.set(*day, *pair.maximum, Quality::measured);
    if (const auto rain = value(fields, rain_column)) {
      if (const auto usable = extremes.checked_rain(Rain::from_mm(*rain), line_number))
        reading.daily.rain.set(*day, *usable, Quality::measured);
    }
    for (const SoilColumn& soil : soil_columns) {
      const auto celsius = value(fields, soil.position);
      if (!celsius) continue;
      if (const auto usable = extremes.checked_soil(Temperature::from_celsius(*celsius), line_number))
        reading.daily.soil[Depth::from_cm(soil.depth_cm)].set(*day, *usable, Quality::measured);
    }
    if (!reading.first_date || *day < *reading.first_date) reading.first_date = *day;
    if (!reading.last_date || *day > *reading.last_date) reading.last_date = *day;
  }
  count_days(reading);
  check_daily_series(reading, notes);
  reading.doubts = notes.finished();
  reading.outcome = reading.doubts.empty() ? Outcome::ok : Outcome::warn;
  return reading;
}

}  // namespace soilclock::weather
