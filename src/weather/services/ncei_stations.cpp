// SPDX-License-Identifier: MIT
#include "weather/services/ncei_stations.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "core/text.hpp"
#include "weather/columns/preamble.hpp"
#include "weather/formats/station_elements.hpp"
#include "weather/hour_days.hpp"
#include "weather/rows/unit_recognition.hpp"

namespace soilclock::weather {

namespace {

/// Problems of the table readers travel as those of JSON do.
template <class Value>
void need(const Result<Value>& result) {
  if (!result) throw JsonProblem{result.error()};
}

/// One station while its values arrive.
struct Station {
  Station(std::string station, ReadingNotes empty, Unit temperature, Unit rain)
      : id{std::move(station)}, notes{std::move(empty)}, elements{temperature, rain} {}
  std::string id;
  ReadingNotes notes;
  StationElements elements;
  std::optional<Place> place;
};

/// Stations in the order they first stand in.
class Stations {
 public:
  Stations(std::string file, const ReadingOptions& options, Unit temperature, Unit rain)
      : file_{std::move(file)}, options_{options}, temperature_{temperature}, rain_{rain} {}

  Station& at(const std::string& id) {
    const auto found = std::find_if(all_.begin(), all_.end(), [&](const Station& s) { return s.id == id; });
    return found != all_.end() ? *found
                               : all_.emplace_back(id, ReadingNotes{file_, options_}, temperature_, rain_);
  }

  /// All stations; `about` is a doubt of each, empty when there is none.
  ServiceAnswer answer(const ReadingOptions& options, const std::string& about = {}) {
    ServiceAnswer result;
    result.service = "ncei";
    for (Station& station : all_) {
      ParsedFile reading;
      reading.file = file_;
      reading.place = station.place;
      if (!about.empty()) station.notes.doubt(about);
      need(station.elements.finish(options, reading, station.notes));
      conclude(reading, station.notes);
      result.series.push_back(
          {static_cast<int>(result.series.size()), {}, 0, station.id, std::move(reading)});
    }
    return result;
  }

 private:
  std::string file_;
  const ReadingOptions& options_;
  Unit temperature_;
  Unit rain_;
  std::vector<Station> all_;
};

std::optional<double> number_in(const JsonObject& object, const std::string& key) {
  const std::string kind = object.kind(key);
  if (kind == "absent" || kind == "null") return std::nullopt;
  if (kind == "number") return object.number(key);
  const std::string text = object.text(key);
  const std::string_view bare = trimmed(text);
  if (bare.empty()) return std::nullopt;
  const auto value = parse_number(bare);
  if (!value) object.refuse(key, "this value is no number", "a number, perhaps padded with blanks", {});
  return value;
}

std::optional<Place> place_in(const JsonObject& day) {
  const auto latitude = number_in(day, "LATITUDE");
  const auto longitude = number_in(day, "LONGITUDE");
  if (!latitude || !longitude) return std::nullopt;
  return checked_place(*latitude, *longitude, number_in(day, "ELEVATION"));
}

/// "2013-09-03" or "2013-09-03T00:00:00".
Day day_in(const JsonObject& object, const std::string& key) {
  const std::string text = object.text(key);
  const auto day = parse_iso_day(std::string_view{text}.substr(0, 10));
  if (!day || (text.size() > 10 && text[10] != 'T'))
    object.refuse(key, "this is no date", "a date such as 2013-09-03", {});
  return *day;
}

/// Names that are no element of weather.
bool is_header(std::string_view key) {
  return key == "DATE" || key == "STATION" || key == "NAME" || key == "LATITUDE" || key == "LONGITUDE" ||
         key == "ELEVATION" || key.ends_with("_ATTRIBUTES");
}

}  // namespace

ServiceAnswer read_ncei_days(const std::vector<JsonObject>& days, const std::string& name,
                             const ReadingOptions& options) {
  const auto wanted = wanted_units(options.units_in);
  need(wanted);
  Stations stations{name, options, wanted->temperature.value_or(Unit::celsius),
                    wanted->rain.value_or(Unit::millimeter)};
  const bool units_named = wanted->temperature && wanted->rain;
  for (const JsonObject& entry : days) {
    Station& station = stations.at(entry.text("STATION"));
    const Day day = day_in(entry, "DATE");
    if (!station.place) station.place = place_in(entry);
    for (const std::string& key : entry.keys()) {
      if (is_header(key)) continue;
      // Elements that are not used need not be numbers (weather types, flags).
      const bool used = key == "TMAX" || key == "TMIN" || key == "PRCP" || key == "MDPR" || key == "DAPR" ||
                        key.starts_with("SN") || key.starts_with("SX");
      if (!used) continue;
      const auto value = number_in(entry, key);
      if (!value) continue;
      const std::string flags = entry.optional_text(key + "_ATTRIBUTES").value_or("");
      need(station.elements.add(
          {day, key, *value, attribute(flags, 0), attribute(flags, 1), attribute(flags, 3), {}},
          station.notes));
    }
  }
  return stations.answer(
      options, units_named ? "" : "the answer does not name its units; C and mm are taken (--units-in)");
}

ServiceAnswer read_ncei_values(const std::vector<JsonObject>& values, const std::string& name,
                               const ReadingOptions& options) {
  const auto wanted = wanted_units(options.units_in);
  need(wanted);
  const bool whole = std::all_of(values.begin(), values.end(), [](const JsonObject& entry) {
    const double value = entry.number("value");
    return value == std::floor(value);
  });
  if (!whole && !(wanted->temperature && wanted->rain)) {
    throw JsonProblem{
        {Family::data,
         "the values have fractions, so other units than tenths were asked for, and the answer does "
         "not say which",
         {name, {}, {}, "/results"},
         {},
         "whole numbers (tenths of C and mm)",
         "name the units with --units-in, for example C,mm"}};
  }
  Stations stations{name, options, wanted->temperature.value_or(Unit::tenths_celsius),
                    wanted->rain.value_or(Unit::tenths_millimeter)};
  for (const JsonObject& entry : values) {
    Station& station = stations.at(entry.text("station"));
    const std::string element = entry.text("datatype");
    const std::string flags = entry.optional_text("attributes").value_or("");
    need(station.elements.add({day_in(entry, "date"),
                               element,
                               entry.number("value"),
                               attribute(flags, 0),
                               attribute(flags, 1),
                               attribute(flags, 3),
                               {}},
                              station.notes));
  }
  return stations.answer(options);
}

}  // namespace soilclock::weather
