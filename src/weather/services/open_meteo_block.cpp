// SPDX-License-Identifier: MIT
#include "weather/services/open_meteo_block.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/text.hpp"
#include "weather/columns/unit_conversion.hpp"

namespace soilclock::weather {

namespace {

struct UnitText {
  std::string_view text;
  Unit unit;
};

/// The texts of the service for what is read here. Source: its public server code and recorded answers.
constexpr std::array temperature_units{UnitText{"°C", Unit::celsius}, UnitText{"°F", Unit::fahrenheit},
                                       UnitText{"K", Unit::kelvin}};
constexpr std::array rain_units{UnitText{"mm", Unit::millimeter}, UnitText{"cm", Unit::centimeter},
                                UnitText{"inch", Unit::inch}};
constexpr std::array humidity_units{UnitText{"%", Unit::percent}};
constexpr std::array wind_units{UnitText{"km/h", Unit::kilometer_per_hour},
                                UnitText{"mp/h", Unit::mile_per_hour}, UnitText{"mph", Unit::mile_per_hour},
                                UnitText{"m/s", Unit::meter_per_second}, UnitText{"kn", Unit::knot}};

template <std::size_t count>
Unit unit_of(const JsonObject& units, const std::string& key, const std::array<UnitText, count>& known) {
  const std::string text = units.kind(key) == "string" ? units.text(key) : std::string{};
  std::vector<std::string> texts;
  for (const UnitText& unit : known) {
    if (unit.text == text) return unit.unit;
    texts.emplace_back(unit.text);
  }
  units.refuse(key, "the unit of '" + key + "' is not known here", "one of " + listed(texts),
               "the numbers cannot be used without it");
}

Unit unit_of(const JsonObject& units, const std::string& key, Quantity quantity) {
  if (is_temperature(quantity)) return unit_of(units, key, temperature_units);
  if (is_rain(quantity)) return unit_of(units, key, rain_units);
  if (quantity == Quantity::humidity) return unit_of(units, key, humidity_units);
  return unit_of(units, key, wind_units);
}

double converted(double value, const AnswerColumn& column) {
  // Nulls stay what they are: converting first would make numbers of them that no check knows.
  if (std::isnan(value)) return value;
  if (is_temperature(column.name.quantity)) return to_temperature(value, column.unit).celsius();
  if (is_rain(column.name.quantity)) return to_rain(value, column.unit).mm();
  if (column.name.quantity == Quantity::wind) return to_wind_speed(value, column.unit);
  return value;
}

[[noreturn]] void refuse_time(const JsonObject& section, std::size_t i, const std::string& what) {
  section.refuse({}, fmt::format("time number {} {}", i + 1, what), "times in order, one for each value",
                 "ask for the data again");
}

/// "2024-05-01T07:00", on the clock of the answer, one after another.
class StampReader {
 public:
  std::optional<Instant> read(std::string_view text) {
    if (text.size() != 16 || text[10] != 'T' || text[13] != ':') return std::nullopt;
    // The day is looked at anew only when it changes.
    if (text.substr(0, 10) != date_) {
      day_ = parse_iso_day(text.substr(0, 10));
      date_ = text.substr(0, 10);
    }
    const int hour = two_digits(text.substr(11, 2));
    const int minute = two_digits(text.substr(14, 2));
    if (!day_ || hour < 0 || hour > 23 || minute < 0 || minute > 59) return std::nullopt;
    return Instant{*day_} + std::chrono::hours{hour} + std::chrono::minutes{minute};
  }

 private:
  static int two_digits(std::string_view text) {
    const int tens = text[0] - '0';
    const int ones = text[1] - '0';
    return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : -1;
  }

  std::string_view date_;
  std::optional<Day> day_;
};

/// All times as seconds of the clock of the answer (UTC plus its one offset).
std::vector<Instant> clock_times(const JsonObject& section, const std::string& form, bool daily,
                                 std::chrono::seconds offset) {
  std::vector<Instant> times;
  if (form == "unixtime") {
    for (const double seconds : section.numbers("time")) {
      const bool usable = std::abs(seconds) < 1e10 && seconds == std::floor(seconds);
      if (!usable) refuse_time(section, times.size(), "is no number of whole seconds since 1970");
      times.push_back(Instant{std::chrono::seconds{static_cast<long long>(seconds)}} + offset);
    }
  } else {
    const std::vector<std::string_view> texts = section.text_views("time");
    times.reserve(texts.size());
    StampReader stamps;
    for (const std::string_view text : texts) {
      const auto day = daily ? parse_iso_day(text) : std::nullopt;
      const auto time = daily ? (day ? std::optional{Instant{*day}} : std::nullopt) : stamps.read(text);
      if (!time)
        refuse_time(section, times.size(), "is not a date as expected ('" + printable(text, 30) + "')");
      times.push_back(*time);
    }
  }
  // Beyond any weather, and beyond the days a series could hold.
  const Instant first{make_day(1800, 1, 1)};
  const Instant last{make_day(2200, 1, 1)};
  const std::chrono::seconds least = daily ? std::chrono::seconds{Days{1}} : std::chrono::hours{1};
  for (std::size_t i = 0; i < times.size(); ++i) {
    if (times[i] < first || times[i] > last) refuse_time(section, i, "is outside the years 1800 to 2200");
    if (i > 0 && times[i] - times[i - 1] < least)
      refuse_time(section, i,
                  daily ? "does not follow the day before it" : "does not follow the hour before it");
  }
  return times;
}

}  // namespace

bool AnswerColumn::any_number() const {
  return std::any_of(values.begin(), values.end(), [](double value) { return !std::isnan(value); });
}

const AnswerColumn* AnswerBlock::find(Quantity quantity, const RunName& run) const {
  const auto found = std::find_if(columns.begin(), columns.end(), [&](const AnswerColumn& column) {
    return column.name.quantity == quantity && column.name.run == run;
  });
  return found == columns.end() ? nullptr : &*found;
}

AnswerBlock read_answer_block(const JsonObject& point, std::string_view name, std::chrono::seconds offset) {
  const std::string units_key = std::string{name} + "_units";
  const JsonObject section = point.object(name);
  const JsonObject units = point.object(units_key);
  const bool daily = name == "daily";
  const std::string form = units.choice("time", {"iso8601", "unixtime"});
  AnswerBlock result;
  std::vector<Instant> times = clock_times(section, form, daily, offset);
  const std::size_t count = times.size();
  if (daily) {
    for (const Instant time : times) result.days.push_back(date::floor<Days>(time));
  } else {
    for (Instant& time : times) time -= offset;
    result.stamps = std::move(times);
  }
  std::vector<std::string> keys;
  for (std::string& key : section.keys()) {
    if (key != "time") keys.push_back(std::move(key));
  }
  const std::vector<AnswerName> names = split_names(name, keys);
  for (std::size_t i = 0; i < keys.size(); ++i) {
    AnswerColumn column{keys[i], names[i], Unit::none, {}};
    if (column.name.quantity != Quantity::not_used) {
      column.unit = unit_of(units, keys[i], column.name.quantity);
      column.values = section.numbers_or_null(keys[i]);
      if (column.values.size() != count) {
        section.refuse({},
                       fmt::format("'{}' has {} values for {} times", keys[i], column.values.size(), count),
                       "one value or null for each time", "ask for the data again");
      }
      for (double& value : column.values) value = converted(value, column);
    }
    result.columns.push_back(std::move(column));
  }
  return result;
}

}  // namespace soilclock::weather
