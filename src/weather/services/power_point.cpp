// SPDX-License-Identifier: MIT
#include "weather/services/power_point.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/text.hpp"
#include "weather/checks.hpp"
#include "weather/columns/preamble.hpp"
#include "weather/columns/unit_conversion.hpp"
#include "weather/hour_days.hpp"

namespace soilclock::weather {

namespace {

/// The documented missing code, for an answer whose header does not say.
constexpr double usual_missing_code = -999.0;

Quantity quantity_of(std::string_view parameter) {
  if (parameter == "T2M_MAX") return Quantity::air_max;
  if (parameter == "T2M_MIN") return Quantity::air_min;
  if (parameter == "PRECTOTCORR" || parameter == "PRECTOT") return Quantity::rain;
  return Quantity::not_used;
}

Day day_of_key(const JsonObject& values, const std::string& key) {
  const auto number = key.size() == 8 ? parse_number(key) : std::nullopt;
  const int date = number && *number > 0 ? static_cast<int>(*number) : 0;
  const auto day =
      checked_day(date / 10000, static_cast<unsigned>(date / 100 % 100), static_cast<unsigned>(date % 100));
  if (!day || date / 10000 < 1900)
    values.refuse({}, "'" + printable(key, 20) + "' is no day", "days such as 20240428",
                  "ask for the days of a point");
  return *day;
}

class PowerReader {
 public:
  PowerReader(const JsonObject& answer, const ReadingOptions& options, ParsedFile& reading,
              ReadingNotes& notes)
      : answer_{answer}, reading_{reading}, notes_{notes}, check_{options.swap_reversed_extremes, notes} {}

  void read() {
    read_header();
    const JsonObject parameters = answer_.object("properties").object("parameter");
    for (const std::string& name : parameters.keys()) read_parameter(parameters, name);
    if (!any_temperature_) {
      answer_.refuse({},
                     "the answer holds no temperature: T2M_MAX and T2M_MIN are absent or missing on all days",
                     "at least one temperature", "check the parameters and the range of dates");
    }
    fill();
    for (const std::string& message : messages())
      notes_.doubt("the service says: " + printable(message, 200));
    reading_.step = "daily";
    count_days(reading_);
    check_daily_series(reading_, notes_);
  }

 private:
  void read_header() {
    const JsonObject header = answer_.object("header");
    const std::string kind = header.kind("fill_value");
    const auto code = kind == "number"   ? std::optional{header.number("fill_value")}
                      : kind == "string" ? parse_number(trimmed(header.text("fill_value")))
                                         : std::nullopt;
    if (!code) notes_.doubt("the header names no missing code; -999 is taken as missing");
    missing_code_ = code.value_or(usual_missing_code);
    const std::string standard = lowered(header.optional_text("time_standard").value_or(""));
    if (standard == "lst")
      reading_.daily.day_definition = "local solar time";
    else if (standard == "utc")
      reading_.daily.day_definition = "UTC";
    else
      notes_.doubt("the header does not say which clock cuts the days");
    if (answer_.kind("geometry") != "object") return;
    const JsonObject geometry = answer_.object("geometry");
    if (!geometry.has("coordinates")) return;
    const std::vector<double> at = geometry.nested_numbers("coordinates");
    if (at.size() >= 2)
      reading_.place = checked_place(at[1], at[0], at.size() > 2 ? std::optional{at[2]} : std::nullopt);
  }

  Unit unit_of(const std::string& name, Quantity quantity) const {
    const JsonObject units = answer_.object("parameters").object(name);
    const std::string text = units.text("units");
    if (is_rain(quantity)) {
      if (text == "mm/day" || text == "mm" || text == "mm day-1") return Unit::millimeter;
      if (text == "in/day" || text == "inch/day") return Unit::inch;
      units.refuse("units", "the unit of " + name + " is not known here", "mm/day", {});
    }
    if (text == "C" || text == "°C") return Unit::celsius;
    if (text == "F" || text == "°F") return Unit::fahrenheit;
    if (text == "K") return Unit::kelvin;
    units.refuse("units", "the unit of " + name + " is not known here", "C, F or K", {});
  }

  void read_parameter(const JsonObject& parameters, const std::string& name) {
    const Quantity quantity = quantity_of(name);
    if (quantity == Quantity::not_used) {
      reading_.columns.push_back({name, quantity_name(quantity, {}), ""});
      return;
    }
    const Unit unit = unit_of(name, quantity);
    reading_.columns.push_back({name, quantity_name(quantity, {}), std::string{unit_name(unit)}});
    const JsonObject values = parameters.object(name);
    for (const std::string& key : values.keys()) {
      const Day day = day_of_key(values, key);
      days_.insert(day);
      const auto value = values.optional_number(key);
      if (!value || *value == missing_code_) continue;
      if (is_rain(quantity)) {
        if (const auto rain = check_.checked_rain(to_rain(*value, unit), {}))
          reading_.daily.rain.set(day, *rain, Quality::modelled);
        continue;
      }
      any_temperature_ = true;
      DailyExtremes& pair = extremes_[day];
      (quantity == Quantity::air_max ? pair.maximum : pair.minimum) = to_temperature(*value, unit);
    }
  }

  void fill() {
    reading_.first_date = *days_.begin();
    reading_.last_date = *days_.rbegin();
    for (const auto& [day, pair] : extremes_) {
      const DailyExtremes usable = check_.checked(pair, day, {});
      if (usable.minimum) reading_.daily.air_min.set(day, *usable.minimum, Quality::modelled);
      if (usable.maximum) reading_.daily.air_max.set(day, *usable.maximum, Quality::modelled);
    }
  }

  std::vector<std::string> messages() const {
    if (answer_.kind("messages") != "array") return {};
    try {
      return answer_.texts("messages");
    } catch (const JsonProblem&) {
      // What the service wants to say is no reason to refuse what it measured.
      return {"messages in a form not known here"};
    }
  }

  const JsonObject& answer_;
  ParsedFile& reading_;
  ReadingNotes& notes_;
  ExtremesCheck check_;
  double missing_code_ = usual_missing_code;
  bool any_temperature_ = false;
  std::set<Day> days_;
  std::map<Day, DailyExtremes> extremes_;
};

}  // namespace

ServiceAnswer read_power_point(const JsonObject& answer, const std::string& name,
                               const ReadingOptions& options) {
  ParsedFile reading;
  reading.file = name;
  ReadingNotes notes{name, options};
  PowerReader{answer, options, reading, notes}.read();
  conclude(reading, notes);
  ServiceAnswer result;
  result.service = "power";
  result.series.push_back({0, {}, 0, {}, std::move(reading)});
  return result;
}

}  // namespace soilclock::weather
