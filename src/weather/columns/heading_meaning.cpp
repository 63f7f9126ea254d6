// SPDX-License-Identifier: MIT
#include "weather/columns/heading_meaning.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/text.hpp"
#include "weather/columns/heading_reading.hpp"
#include "weather/columns/heading_tokens.hpp"

namespace soilclock::weather {

namespace {

using Reading = HeadingReading;

Unit speed_unit(std::string_view heading) {
  const std::vector<HeadingToken> tokens = heading_tokens(heading);
  for (std::size_t i = 0; i < tokens.size(); ++i) {
    const std::string& word = tokens[i].text;
    const std::string next = i + 1 < tokens.size() ? tokens[i + 1].text : "";
    if (word == "mph" || (word == "mp" && next == "h")) return Unit::mile_per_hour;
    if (word == "kmh" || word == "kph" || (word == "km" && next == "h")) return Unit::kilometer_per_hour;
    if (word == "ms" || (word == "m" && next == "s")) return Unit::meter_per_second;
    const auto hints = hints_of(word);
    if (hints && has(*hints, Hint::knot)) return Unit::knot;
  }
  return Unit::none;
}

struct ScaledUnit {
  Hint hint;
  int scale;
  Unit unit;
};

constexpr ScaledUnit temperature_units[]{
    {Hint::celsius, 1, Unit::celsius},
    {Hint::celsius, 10, Unit::tenths_celsius},
    {Hint::celsius, 100, Unit::hundredths_celsius},
    {Hint::fahrenheit, 1, Unit::fahrenheit},
    {Hint::fahrenheit, 10, Unit::tenths_fahrenheit},
    {Hint::fahrenheit, 100, Unit::hundredths_fahrenheit},
    {Hint::kelvin, 1, Unit::kelvin},
};
constexpr ScaledUnit rain_units[]{
    {Hint::millimeter, 1, Unit::millimeter},
    {Hint::millimeter, 10, Unit::tenths_millimeter},
    {Hint::millimeter, 100, Unit::hundredths_millimeter},
    {Hint::inch, 1, Unit::inch},
    {Hint::inch, 10, Unit::tenths_inch},
    {Hint::inch, 100, Unit::hundredths_inch},
    {Hint::inch, 1000, Unit::thousandths_inch},
    {Hint::centimeter, 1, Unit::centimeter},
    {Hint::meter, 1, Unit::meter},
    {Hint::foot, 1, Unit::foot},
};

std::string scale_word(int scale) {
  return scale == 10 ? "tenths" : scale == 100 ? "hundredths" : scale == 1000 ? "thousandths" : "";
}

/// Sets the unit, or what is written where a unit stands and is none known here.
template <std::size_t count>
void set_unit(const Reading& r, const Hints& hints, const ScaledUnit (&known)[count],
              HeadingMeaning& meaning) {
  std::vector<Hint> named;
  for (const ScaledUnit& unit : known) {
    if (has(hints, unit.hint) && (named.empty() || named.back() != unit.hint)) named.push_back(unit.hint);
  }
  if (named.size() > 1) {
    meaning.unknown_unit = "two units";
    return;
  }
  if (named.empty() || r.unknown_beside_unit) {
    meaning.unknown_unit = r.unknown_in_brackets;
    if (meaning.unknown_unit.empty()) meaning.unknown_unit = scale_word(r.scale);
    return;
  }
  const auto found = std::find_if(std::begin(known), std::end(known), [&](const ScaledUnit& unit) {
    return unit.hint == named.front() && unit.scale == r.scale;
  });
  if (found == std::end(known))
    meaning.unknown_unit = scale_word(r.scale);
  else
    meaning.unit = found->unit;
}

void set_temperature_unit(const Reading& r, HeadingMeaning& meaning) {
  set_unit(r, r.hints, temperature_units, meaning);
}

void set_rain_unit(const Reading& r, HeadingMeaning& meaning) {
  Hints hints = r.hints;
  if (r.per_area) {
    // Liters or kilograms of water on a square meter are millimeters.
    hints.reset(static_cast<std::size_t>(Hint::meter));
    if (r.liters) hints.set(static_cast<std::size_t>(Hint::millimeter));
  }
  set_unit(r, hints, rain_units, meaning);
  if (meaning.unit == Unit::none && meaning.unknown_unit.empty() && r.unknown_last)
    meaning.unknown_unit = r.unknown.back();
  if (r.bracketed_length) {
    // "(0.2 mm)" may be the unit of the numbers or the step of the gauge.
    meaning.unit = Unit::none;
    meaning.unknown_unit = "a number and a unit";
  }
}

void copy_words(const Reading& r, HeadingMeaning& meaning) {
  meaning.unknown = r.unknown;
  meaning.unknown.insert(meaning.unknown.end(), r.other_moments.begin(), r.other_moments.end());
  meaning.sensor_number = r.sensor_number;
  meaning.of_day = r.of_day;
  meaning.window_minutes = r.window_minutes;
}

HeadingMeaning qualified(HeadingMeaning meaning, std::string word) {
  meaning.unqualified = std::exchange(meaning.quantity, Quantity::not_used);
  meaning.qualifier = std::move(word);
  return meaning;
}

Quantity time_quantity(const Reading& r) {
  const Hints& h = r.hints;
  if (has(h, Hint::observation) && (has(h, Hint::clock) || has(h, Hint::hour)))
    return Quantity::observation_time;
  if (has(h, Hint::hour_ending)) return Quantity::hour_ending;
  if (has(h, Hint::stamp) || has(h, Hint::epoch) || has(h, Hint::date)) return Quantity::stamp;
  if (r.point_in_time && has(h, Hint::month))
    return has(h, Hint::day) ? Quantity::day_of_month : Quantity::month;
  if (has(h, Hint::day_of_year) || (has(h, Hint::day) && has(h, Hint::year))) return Quantity::day_of_year;
  if (has(h, Hint::hour_minute) || has(h, Hint::clock) || has(h, Hint::hour)) return Quantity::time_of_day;
  if (has(h, Hint::year)) return Quantity::year;
  if (has(h, Hint::month)) return Quantity::month;
  return has(h, Hint::day) ? Quantity::day_of_month : Quantity::not_used;
}

HeadingMeaning time_meaning(const Reading& r, Quantity quantity) {
  HeadingMeaning meaning;
  meaning.unknown = r.unknown;
  meaning.quantity = quantity;
  if (!r.other_date.empty()) return qualified(std::move(meaning), r.other_date);
  if (!r.qualifier.empty()) return qualified(std::move(meaning), r.qualifier);
  return meaning;
}

HeadingMeaning soil_meaning(const Reading& r) {
  HeadingMeaning meaning;
  meaning.names_temperature = true;
  if (has(r.hints, Hint::not_value) || has(r.hints, Hint::humidity) || has(r.hints, Hint::percent) ||
      has(r.hints, Hint::outdoors) || r.point_in_time)
    return meaning;
  if (has(r.hints, Hint::maximum) || has(r.hints, Hint::minimum)) return meaning;
  copy_words(r, meaning);
  meaning.quantity = Quantity::soil;
  set_temperature_unit(r, meaning);
  meaning.single_reading = r.start_of_day;
  if (!r.lengths_cm.empty()) {
    double sum = 0.0;
    for (const double depth : r.lengths_cm) sum += depth;
    meaning.depth_cm = sum / static_cast<double>(r.lengths_cm.size());
  }
  return r.qualifier.empty() ? meaning : qualified(std::move(meaning), r.qualifier);
}

/// Words of totals that start anew with a month or a storm: their differences are amounts.
bool names_running_total(const std::string& word) {
  return word == "ytd" || word == "mtd" || word == "wtd" || word == "monthly" || word == "yearly" ||
         word == "annual" || word == "season" || word == "seasonal" || word == "weekly" || word == "storm" ||
         word == "event";
}

HeadingMeaning rain_meaning(const Reading& r) {
  HeadingMeaning meaning;
  meaning.names_rain = true;
  const Hints& h = r.hints;
  const bool degrees = has(h, Hint::temperature) && (has(h, Hint::celsius) || has(h, Hint::fahrenheit));
  if (has(h, Hint::not_amount) || has(h, Hint::not_value) || has(h, Hint::not_air) || r.rate ||
      r.point_in_time || has(h, Hint::clock) || degrees)
    return meaning;
  if (has(h, Hint::percent) && r.unknown.empty() && !has(h, Hint::inch) && !has(h, Hint::millimeter))
    return meaning;
  copy_words(r, meaning);
  if (!r.lengths_cm.empty()) meaning.unknown.emplace_back("a length");
  set_rain_unit(r, meaning);
  const bool total = names_running_total(r.qualifier);
  if (has(h, Hint::several_days))
    meaning.quantity = Quantity::rain_several_days;
  else if (has(h, Hint::running) || has(h, Hint::year) || has(h, Hint::month) || total)
    meaning.quantity = Quantity::rain_running;
  else
    meaning.quantity = has(h, Hint::today) ? Quantity::rain_today : Quantity::rain;
  meaning.single_reading = r.start_of_day;
  if (!r.qualifier.empty() && !total) return qualified(std::move(meaning), r.qualifier);
  if (has(h, Hint::hour)) return qualified(std::move(meaning), "hour");
  if (has(h, Hint::mean)) return qualified(std::move(meaning), "average");
  if (has(h, Hint::maximum) || has(h, Hint::minimum)) return qualified(std::move(meaning), "extreme");
  return meaning;
}

/// Temperatures are measured between 1.2 and 2 m; model levels at 10 m and above and grass level are others.
bool at_another_height(const Reading& r) {
  constexpr double lowest_cm = 100.0;
  constexpr double highest_cm = 300.0;
  return std::any_of(r.lengths_cm.begin(), r.lengths_cm.end(),
                     [](double cm) { return cm < lowest_cm || cm > highest_cm; });
}

/// Why a heading with words of the air temperature is no temperature of the air near the ground, empty when
/// it is one.
std::string why_not_air(const Reading& r) {
  const Hints& h = r.hints;
  if (!r.other_thing.empty()) return r.other_thing;
  if (at_another_height(r)) return "the height";
  if (has(h, Hint::clock) || has(h, Hint::date) || has(h, Hint::stamp) || r.point_in_time) return "a time";
  if (has(h, Hint::running)) return "accumulation";
  if (has(h, Hint::inch) && r.lengths_cm.empty()) return "in";  // "T in" beside "T out" is indoors
  // One reading at midnight says nothing about the extremes of the day.
  if (r.start_of_day) return "start of day";
  if (has(h, Hint::percent)) return "percent";
  if (!r.qualifier.empty()) return r.qualifier;
  if (has(h, Hint::month) || has(h, Hint::year) || has(h, Hint::day_of_year)) return "month or year";
  if (has(h, Hint::hour)) return "hour";
  const bool extreme = has(h, Hint::maximum) || has(h, Hint::minimum);
  return has(h, Hint::mean) && extreme ? "average" : "";
}

HeadingMeaning air_meaning(const Reading& r) {
  HeadingMeaning meaning;
  meaning.names_temperature = true;
  const bool maximum = has(r.hints, Hint::maximum);
  const bool minimum = has(r.hints, Hint::minimum);
  if (maximum && minimum) return meaning;
  copy_words(r, meaning);
  set_temperature_unit(r, meaning);
  meaning.quantity = maximum                    ? Quantity::air_max
                     : minimum                  ? Quantity::air_min
                     : has(r.hints, Hint::mean) ? Quantity::air_mean
                                                : Quantity::air;
  std::string why = why_not_air(r);
  return why.empty() ? meaning : qualified(std::move(meaning), std::move(why));
}

HeadingMeaning wind_or_humidity(const Reading& r, Unit speed) {
  HeadingMeaning meaning;
  const Hints& h = r.hints;
  const bool other = has(h, Hint::not_value) || has(h, Hint::maximum) || has(h, Hint::not_air) ||
                     !r.qualifier.empty() || r.point_in_time;
  if (other) return meaning;
  copy_words(r, meaning);
  if (has(h, Hint::wind)) {
    if (has(h, Hint::degree)) return meaning;
    meaning.quantity = Quantity::wind;
    meaning.unit = speed;
  } else if (!has(h, Hint::minimum)) {
    meaning.quantity = Quantity::humidity;
    meaning.unit = Unit::percent;
  }
  return meaning;
}

/// The words of a legend count like those of the heading, but need not be known.
Reading with_legend(Reading reading, std::string_view legend) {
  if (legend.empty()) return reading;
  const Reading more = read_heading_words(legend);
  reading.hints |= more.hints;
  reading.words += more.words;
  reading.lengths_cm.insert(reading.lengths_cm.end(), more.lengths_cm.begin(), more.lengths_cm.end());
  if (more.scale != 1) reading.scale = more.scale;
  reading.per_area = reading.per_area || more.per_area;
  reading.liters = reading.liters || more.liters;
  reading.rate = reading.rate || more.rate;
  if (reading.qualifier.empty()) reading.qualifier = more.qualifier;
  // The legend explains what the heading alone does not say.
  reading.unknown.clear();
  reading.unknown_last = false;
  return reading;
}

bool is_air(const Reading& r) {
  const Hints& h = r.hints;
  const bool extreme = has(h, Hint::maximum) || has(h, Hint::minimum);
  const bool unit =
      has(h, Hint::celsius) || has(h, Hint::fahrenheit) || has(h, Hint::kelvin) || has(h, Hint::degree);
  const bool outdoors = has(h, Hint::outdoors);
  const bool moment = time_quantity(r) != Quantity::not_used;
  // "Max °C", "Air °C", a bare "High" and "Normal high" are temperatures; a bare "c" or "k" is not.
  const bool alone = !moment && (r.words == 1 || !r.qualifier.empty() || has(h, Hint::mean));
  return has(h, Hint::temperature) || (extreme && outdoors) || ((extreme || outdoors) && (unit || alone));
}

}  // namespace

HeadingMeaning heading_meaning(std::string_view heading, std::string_view legend) {
  const Reading r = with_legend(read_heading_words(heading), legend);
  const Hints& h = r.hints;
  HeadingMeaning meaning;
  const auto only = [&](Quantity quantity) {
    meaning.quantity = quantity;
    return meaning;
  };
  if (has(h, Hint::attributes)) return only(Quantity::attributes);
  if (has(h, Hint::flag)) return only(Quantity::flag);
  const bool of_value = has(h, Hint::temperature) || has(h, Hint::maximum) || has(h, Hint::minimum);
  if (has(h, Hint::stamp) && !of_value) return time_meaning(r, Quantity::stamp);
  if (has(h, Hint::rain)) return rain_meaning(r);
  if (has(h, Hint::soil)) return soil_meaning(r);
  if (has(h, Hint::wind) || has(h, Hint::humidity)) {
    const Unit speed = speed_unit(heading);
    return wind_or_humidity(r, speed == Unit::none ? speed_unit(legend) : speed);
  }
  if (is_air(r)) return air_meaning(r);
  if (has(h, Hint::not_air)) return meaning;
  const Quantity time = time_quantity(r);
  if (time != Quantity::not_used && !has(h, Hint::not_value)) return time_meaning(r, time);
  if (has(h, Hint::latitude)) return only(Quantity::latitude);
  if (has(h, Hint::longitude)) return only(Quantity::longitude);
  if (has(h, Hint::elevation)) return only(Quantity::elevation);
  if (has(h, Hint::station)) return only(Quantity::station);
  if (!r.other_moments.empty()) return time_meaning(r, Quantity::stamp);  // "sunset", "created"
  return meaning;
}

std::optional<HeadingMeaning> quantity_named(std::string_view word) {
  const std::string wanted = lowered(trimmed(word));
  HeadingMeaning meaning;
  if (wanted.empty() || wanted == "-" || wanted == "skip") return meaning;
  if (wanted.starts_with("soil")) {
    meaning = heading_meaning(wanted);
    if (meaning.quantity != Quantity::soil || !meaning.depth_cm) return std::nullopt;
    return meaning;
  }
  if (wanted == "datetime") return quantity_named("date");
  if (wanted == "doy") return quantity_named("day of year");
  if (wanted == "temp") return quantity_named("temperature");
  const auto quantity = quantity_of_word(wanted);
  if (!quantity) return std::nullopt;
  meaning.quantity = *quantity;
  return meaning;
}

}  // namespace soilclock::weather
