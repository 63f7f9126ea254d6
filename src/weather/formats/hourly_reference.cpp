// SPDX-License-Identifier: MIT
#include "weather/formats/hourly_reference.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "weather/checks.hpp"
#include "weather/columns/heading_meaning.hpp"
#include "weather/columns/preamble.hpp"
#include "weather/hour_days.hpp"
#include "weather/table/line_reading.hpp"
#include "weather/table/stamp_parsing.hpp"

namespace soilclock::weather {

namespace {

constexpr std::size_t column_count = 38;
using Fields = std::array<std::string_view, column_count>;

/// Positions, counted from 0.
constexpr std::size_t local_date_column = 3;
constexpr std::size_t local_time_column = 4;
constexpr std::size_t longitude_column = 6;
constexpr std::size_t latitude_column = 7;
constexpr std::size_t air_column = 8;
constexpr std::size_t maximum_column = 10;
constexpr std::size_t minimum_column = 11;
constexpr std::size_t rain_column = 12;
constexpr std::size_t surface_type_column = 19;
constexpr std::size_t humidity_column = 26;
constexpr std::size_t humidity_flag_column = 27;
constexpr std::size_t first_soil_column = 33;
constexpr std::array soil_depths_cm{5.0, 10.0, 20.0, 50.0, 100.0};
/// Hours a day's soil mean may lack in a row, as for readings in tables.
constexpr int most_missing_hours = 5;

bool has_shape(const Fields& fields) {
  const std::string_view type = fields[surface_type_column];
  if (fields[0].size() != 5 || fields[1].size() != 8 || fields[2].size() != 4) return false;
  if (fields[local_date_column].size() != 8 || fields[local_time_column].size() != 4) return false;
  if (type != "R" && type != "C" && type != "U") return false;
  for (std::size_t i = 0; i < column_count; ++i) {
    if (i != surface_type_column && !parse_number(fields[i])) return false;
  }
  return true;
}

/// The number, or not-a-number for the network's -9999 (of these columns none writes -99).
double value(const Fields& fields, std::size_t column) {
  const auto number = parse_number(fields[column]);
  return !number || *number <= -999.0 ? std::nan("") : *number;
}

/// The moment a line closes, on the station's standard time.
std::optional<Instant> stamp(const Fields& fields) {
  const auto date = parse_stamp(fields[local_date_column]);
  const auto day = date && date->a > 1900 && date->b > 0 && date->c > 0
                       ? checked_day(date->a, static_cast<unsigned>(date->b), static_cast<unsigned>(date->c))
                       : std::nullopt;
  const auto minute = parse_time_of_day(fields[local_time_column], false);
  if (!day || !minute) return std::nullopt;
  return Instant{*day} + std::chrono::minutes{*minute};
}

std::vector<ParsedColumn> column_readings() {
  std::vector<ParsedColumn> columns{{"LST_DATE", "date", ""},      {"LST_TIME", "time", ""},
                                    {"T_CALC", "tair", "C"},       {"T_MAX", "tmax", "C"},
                                    {"T_MIN", "tmin", "C"},        {"P_CALC", "rain", "mm"},
                                    {"RH_HR_AVG", "humidity", "%"}};
  columns[1].quantity = quantity_name(Quantity::time_of_day, {});
  columns[2].quantity = quantity_name(Quantity::air, {});
  columns[6].quantity = quantity_name(Quantity::humidity, {});
  for (const double depth : soil_depths_cm)
    columns.push_back(
        {fmt::format("SOIL_TEMP_{}", number_text(depth, 0)), quantity_name(Quantity::soil, depth), "C"});
  return columns;
}

/// The values of a file while its lines arrive.
struct Hours {
  HourlyValues values;
  std::array<std::vector<double>, soil_depths_cm.size()> soil;
  int flagged_humidity = 0;

  void add(Instant at, const Fields& fields) {
    values.stamps.push_back(at);
    values.air.push_back(value(fields, air_column));
    values.air_low.push_back(value(fields, minimum_column));
    values.air_high.push_back(value(fields, maximum_column));
    values.rain.push_back(value(fields, rain_column));
    // Flag 3 is erroneous, 0 is good; others are not documented and not trusted.
    const bool good = value(fields, humidity_flag_column) == 0.0;
    const double humidity = value(fields, humidity_column);
    flagged_humidity += !good && !std::isnan(humidity) ? 1 : 0;
    values.humidity.push_back(good ? humidity : std::nan(""));
    for (std::size_t i = 0; i < soil.size(); ++i) soil[i].push_back(value(fields, first_soil_column + i));
  }
};

/// Daily means of each depth; a day with a hole as long as one that hides its extremes has none.
void fill_soil(const Hours& hours, ParsedFile& reading, ReadingNotes& notes) {
  ExtremesCheck check{false, notes};
  for (std::size_t depth = 0; depth < hours.soil.size(); ++depth) {
    DailySeries<Temperature> means;
    std::size_t i = 0;
    const std::vector<Instant>& stamps = hours.values.stamps;
    while (i < stamps.size()) {
      const Day day = date::floor<Days>(stamps[i] - std::chrono::seconds{1});
      double sum = 0.0;
      int count = 0;
      Instant seen{day};
      std::chrono::seconds hole{0};
      for (; i < stamps.size() && stamps[i] <= Instant{day + Days{1}}; ++i) {
        if (std::isnan(hours.soil[depth][i])) continue;
        hole = std::max(hole, stamps[i] - seen);
        seen = stamps[i];
        sum += hours.soil[depth][i];
        ++count;
      }
      hole = std::max(hole, Instant{day + Days{1}} - seen);
      if (count == 0 || hole > std::chrono::hours{most_missing_hours + 1}) continue;
      if (const auto mean = check.checked_soil(Temperature::from_celsius(sum / count), {}))
        means.set(day, *mean, Quality::measured);
    }
    if (!means.empty()) reading.daily.soil[Depth::from_cm(soil_depths_cm[depth])] = std::move(means);
  }
}

}  // namespace

std::optional<ParsedFile> read_reference_hours(std::string_view text, const std::string& file,
                                               const ReadingOptions& options) {
  Fields fields;
  if (!split_fields(text.substr(0, text.find('\n')), fields) || !has_shape(fields)) return std::nullopt;
  ParsedFile reading;
  reading.file = file;
  reading.step = "hourly";
  reading.columns = column_readings();
  ReadingNotes notes{file, options};
  const std::string station{fields[0]};
  Hours hours;
  LineReader lines{text};
  while (lines.next()) {
    if (trimmed(lines.line()).empty()) continue;
    const bool shaped = split_fields(lines.line(), fields) && has_shape(fields);
    const auto at = shaped ? stamp(fields) : std::nullopt;
    if (!at && lines.cut() && lines.number() > 1) {
      notes.doubt("the last line is cut off and is left out", lines.number());
      break;
    }
    const bool later = at && (hours.values.stamps.empty() || *at > hours.values.stamps.back());
    if (!later || fields[0] != station) {
      reading.refusal =
          notes.problem(at && !later ? "this hour does not follow the one before it"
                                     : "this line does not have the shape of the lines before it",
                        lines.number(), {}, std::string{lines.line()},
                        "38 columns of one station, hour after hour", "load the file again");
      return reading;
    }
    if (!reading.place) {
      reading.place =
          checked_place(*parse_number(fields[latitude_column]), *parse_number(fields[longitude_column]), {});
    }
    hours.add(*at, fields);
  }
  if (hours.flagged_humidity > 0) {
    notes.doubt(fmt::format("{} humidity {} flagged as erroneous and taken as missing",
                            hours.flagged_humidity, hours.flagged_humidity == 1 ? "value is" : "values are"));
  }
  // The stamps are read on the station's own standard time, so the clock that cuts them adds nothing.
  cut_into_days(hours.values, StandardClock{TimeZone::fixed(std::chrono::seconds{0})},
                {most_missing_hours, Quality::measured, options.keep_hours}, reading, notes);
  fill_soil(hours, reading, notes);
  if (reading.days_with_data == 0) {
    reading.refusal = notes.problem("every temperature is missing", {}, {}, {}, "at least one temperature",
                                    "check the station and the year");
    return reading;
  }
  conclude(reading, notes, hours.values.stamps.size());
  return reading;
}

}  // namespace soilclock::weather
