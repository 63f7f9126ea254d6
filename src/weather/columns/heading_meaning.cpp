// SPDX-License-Identifier: MIT
#include "weather/columns/heading_meaning.hpp"

#include <fmt/format.h>

#include <array>
#include <vector>

#include "core/text.hpp"
#include "weather/columns/heading_words.hpp"

namespace soilclock::weather {

namespace {

/// What all words of a heading say together, and the numbers with a length unit in it.
struct Reading {
  Hints hints;
  std::vector<double> depths_cm;
  double height_m = 2.0;  // screen height unless the heading names another
  bool start_of_day = false;
  int words = 0;
  Unit speed = Unit::none;
};

bool is_length_unit(std::string_view token) {
  const auto hints = hints_of(token);
  return hints && (has(*hints, Hint::inch) || has(*hints, Hint::centimetre));
}

double to_cm(double value, std::string_view unit) {
  return has(*hints_of(unit), Hint::inch) ? value * 2.54 : value;
}

Unit speed_unit(const std::vector<std::string>& tokens) {
  for (std::size_t i = 0; i < tokens.size(); ++i) {
    const std::string next = i + 1 < tokens.size() ? tokens[i + 1] : "";
    if (tokens[i] == "mph" || (tokens[i] == "mp" && next == "h")) return Unit::mile_per_hour;
    if (tokens[i] == "kmh" || tokens[i] == "kph" || (tokens[i] == "km" && next == "h"))
      return Unit::kilometre_per_hour;
    if (tokens[i] == "ms" || (tokens[i] == "m" && next == "s")) return Unit::metre_per_second;
    const auto hints = hints_of(tokens[i]);
    if (hints && has(*hints, Hint::knot)) return Unit::knot;
  }
  return Unit::none;
}

Reading read(std::string_view heading) {
  const std::vector<std::string> tokens = heading_tokens(heading);
  Reading reading;
  reading.speed = speed_unit(tokens);
  std::vector<double> pending;  // numbers waiting for their length unit: "0 to 7 cm"
  for (std::size_t i = 0; i < tokens.size(); ++i) {
    const std::string& token = tokens[i];
    if (const auto number = parse_number(token)) {
      pending.push_back(*number);
      continue;
    }
    if (!pending.empty() && is_length_unit(token)) {
      for (const double value : pending) reading.depths_cm.push_back(to_cm(value, token));
      pending.clear();
      continue;
    }
    if (!pending.empty() && token == "m") reading.height_m = pending.back();
    if (token != "to") pending.clear();
    if (token == "start" && i + 2 < tokens.size() && tokens[i + 1] == "of" && tokens[i + 2] == "day") {
      reading.start_of_day = true;
      i += 2;
      continue;
    }
    if (const auto hints = hints_of(token)) {
      reading.hints |= *hints;
      ++reading.words;
    }
  }
  return reading;
}

Unit temperature_unit(const Hints& hints) {
  if (has(hints, Hint::celsius)) return Unit::celsius;
  if (has(hints, Hint::fahrenheit)) return Unit::fahrenheit;
  return has(hints, Hint::kelvin) ? Unit::kelvin : Unit::none;
}

Unit rain_unit(const Hints& hints) {
  if (has(hints, Hint::millimetre)) return Unit::millimetre;
  if (has(hints, Hint::inch)) return Unit::inch;
  return has(hints, Hint::centimetre) ? Unit::centimetre : Unit::none;
}

Quantity time_quantity(const Reading& r) {
  const Hints& h = r.hints;
  if (has(h, Hint::observation) && (has(h, Hint::clock) || has(h, Hint::hour)))
    return Quantity::observation_time;
  if (has(h, Hint::hour_ending)) return Quantity::hour_ending;
  if (has(h, Hint::stamp) || has(h, Hint::epoch) || has(h, Hint::date)) return Quantity::stamp;
  if (has(h, Hint::day_of_year) || (has(h, Hint::day) && has(h, Hint::year))) return Quantity::day_of_year;
  if (has(h, Hint::hour_minute) || has(h, Hint::clock) || has(h, Hint::hour)) return Quantity::time_of_day;
  if (has(h, Hint::year)) return Quantity::year;
  if (has(h, Hint::month)) return Quantity::month;
  return has(h, Hint::day) ? Quantity::day_of_month : Quantity::not_used;
}

HeadingMeaning soil_meaning(const Reading& r) {
  HeadingMeaning meaning;
  meaning.names_temperature = true;
  if (has(r.hints, Hint::not_value) || has(r.hints, Hint::humidity) || has(r.hints, Hint::percent))
    return meaning;
  if (has(r.hints, Hint::maximum) || has(r.hints, Hint::minimum)) return meaning;
  meaning.quantity = Quantity::soil;
  meaning.unit = temperature_unit(r.hints);
  meaning.single_reading = r.start_of_day;
  if (!r.depths_cm.empty()) {
    double sum = 0.0;
    for (const double depth : r.depths_cm) sum += depth;
    meaning.depth_cm = sum / static_cast<double>(r.depths_cm.size());
  }
  return meaning;
}

HeadingMeaning rain_meaning(const Reading& r) {
  HeadingMeaning meaning;
  if (has(r.hints, Hint::not_amount) || has(r.hints, Hint::not_value)) return meaning;
  meaning.unit = rain_unit(r.hints);
  if (has(r.hints, Hint::several_days))
    meaning.quantity = Quantity::rain_several_days;
  else if (has(r.hints, Hint::today))
    meaning.quantity = Quantity::rain_today;
  else if (has(r.hints, Hint::running) || has(r.hints, Hint::year))
    meaning.quantity = Quantity::rain_running;
  else
    meaning.quantity = Quantity::rain;
  meaning.single_reading = r.start_of_day;
  return meaning;
}

HeadingMeaning air_meaning(const Reading& r) {
  HeadingMeaning meaning;
  meaning.names_temperature = true;
  const bool time_of_extreme = has(r.hints, Hint::clock) || has(r.hints, Hint::date);
  // Temperatures are measured between 1.2 and 2 m; model levels at 10 m and above are another quantity.
  if (has(r.hints, Hint::not_air) || has(r.hints, Hint::not_value) || r.height_m > 3.0 || time_of_extreme)
    return meaning;
  if (has(r.hints, Hint::running)) return meaning;  // "days of accumulation of maximum temperature"
  if (has(r.hints, Hint::inch)) return meaning;     // "T in" beside "T out" is indoors
  if (r.start_of_day) return meaning;  // one reading at midnight says nothing about the extremes of the day
  const bool maximum = has(r.hints, Hint::maximum);
  const bool minimum = has(r.hints, Hint::minimum);
  if (maximum && minimum) return meaning;
  meaning.unit = temperature_unit(r.hints);
  meaning.quantity = maximum                    ? Quantity::air_max
                     : minimum                  ? Quantity::air_min
                     : has(r.hints, Hint::mean) ? Quantity::air_mean
                                                : Quantity::air;
  return meaning;
}

}  // namespace

HeadingMeaning heading_meaning(std::string_view heading) {
  const Reading r = read(heading);
  const Hints& h = r.hints;
  HeadingMeaning meaning;
  const auto only = [&](Quantity quantity) {
    meaning.quantity = quantity;
    return meaning;
  };
  if (has(h, Hint::attributes)) return only(Quantity::attributes);
  if (has(h, Hint::flag)) return only(Quantity::flag);
  if (has(h, Hint::stamp)) return only(Quantity::stamp);
  if (has(h, Hint::rain)) return rain_meaning(r);
  if (has(h, Hint::soil)) return soil_meaning(r);
  if (has(h, Hint::wind)) {
    if (has(h, Hint::not_value) || has(h, Hint::maximum) || has(h, Hint::not_air) || has(h, Hint::degree))
      return meaning;
    meaning.unit = r.speed;
    return only(Quantity::wind);
  }
  if (has(h, Hint::humidity)) {
    if (has(h, Hint::not_value) || has(h, Hint::not_air) || has(h, Hint::maximum) || has(h, Hint::minimum))
      return meaning;
    meaning.unit = Unit::percent;
    return only(Quantity::humidity);
  }
  const bool extreme = has(h, Hint::maximum) || has(h, Hint::minimum);
  const bool unit = has(h, Hint::celsius) || has(h, Hint::fahrenheit) || has(h, Hint::kelvin);
  // "Max °C", "Air °C" and a bare "High" are temperatures; a bare "c" or "k" is not.
  const bool outdoors = has(h, Hint::outdoors);
  if (has(h, Hint::temperature) || (extreme && outdoors) ||
      ((extreme || outdoors) && (unit || r.words == 1))) {
    return air_meaning(r);
  }
  if (has(h, Hint::not_air)) return meaning;
  const Quantity time = time_quantity(r);
  if (time != Quantity::not_used && !has(h, Hint::not_value)) return only(time);
  if (has(h, Hint::latitude)) return only(Quantity::latitude);
  if (has(h, Hint::longitude)) return only(Quantity::longitude);
  if (has(h, Hint::elevation)) return only(Quantity::elevation);
  if (has(h, Hint::station)) return only(Quantity::station);
  return meaning;
}

std::string_view unit_name(Unit unit) {
  switch (unit) {
    case Unit::celsius:
      return "C";
    case Unit::fahrenheit:
      return "F";
    case Unit::kelvin:
      return "K";
    case Unit::tenths_celsius:
      return "0.1 C";
    case Unit::millimetre:
      return "mm";
    case Unit::centimetre:
      return "cm";
    case Unit::inch:
      return "in";
    case Unit::tenths_millimetre:
      return "0.1 mm";
    case Unit::percent:
      return "%";
    case Unit::metre_per_second:
      return "m/s";
    case Unit::kilometre_per_hour:
      return "km/h";
    case Unit::mile_per_hour:
      return "mph";
    case Unit::knot:
      return "kn";
    case Unit::none:
      break;
  }
  return "";
}

namespace {

struct QuantityWord {
  Quantity quantity;
  std::string_view word;
};

constexpr std::array quantity_words{
    QuantityWord{Quantity::not_used, "not used"},
    QuantityWord{Quantity::stamp, "date"},
    QuantityWord{Quantity::time_of_day, "time"},
    QuantityWord{Quantity::hour_ending, "hour ending"},
    QuantityWord{Quantity::year, "year"},
    QuantityWord{Quantity::month, "month"},
    QuantityWord{Quantity::day_of_month, "day"},
    QuantityWord{Quantity::day_of_year, "day of year"},
    QuantityWord{Quantity::observation_time, "observation time"},
    QuantityWord{Quantity::air, "temperature"},
    QuantityWord{Quantity::air_min, "tmin"},
    QuantityWord{Quantity::air_max, "tmax"},
    QuantityWord{Quantity::air_mean, "tmean"},
    QuantityWord{Quantity::rain, "rain"},
    QuantityWord{Quantity::rain_today, "rain today"},
    QuantityWord{Quantity::rain_running, "rain running total"},
    QuantityWord{Quantity::rain_several_days, "rain of several days"},
    QuantityWord{Quantity::humidity, "humidity"},
    QuantityWord{Quantity::wind, "wind"},
    QuantityWord{Quantity::station, "station"},
    QuantityWord{Quantity::flag, "flag"},
    QuantityWord{Quantity::attributes, "attributes"},
    QuantityWord{Quantity::latitude, "latitude"},
    QuantityWord{Quantity::longitude, "longitude"},
    QuantityWord{Quantity::elevation, "elevation"},
    QuantityWord{Quantity::soil, "soil"},
};

}  // namespace

std::string quantity_name(Quantity quantity, std::optional<double> depth_cm) {
  if (quantity == Quantity::soil && depth_cm) return fmt::format("soil {:.3g} cm", *depth_cm);
  for (const QuantityWord& entry : quantity_words) {
    if (entry.quantity == quantity) return std::string{entry.word};
  }
  return "not used";
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
  for (const QuantityWord& entry : quantity_words) {
    if (entry.word == wanted) {
      meaning.quantity = entry.quantity;
      return meaning;
    }
  }
  return std::nullopt;
}

bool is_temperature(Quantity quantity) {
  return quantity == Quantity::air || quantity == Quantity::air_min || quantity == Quantity::air_max ||
         quantity == Quantity::air_mean || quantity == Quantity::soil;
}

bool is_rain(Quantity quantity) {
  return quantity == Quantity::rain || quantity == Quantity::rain_today ||
         quantity == Quantity::rain_running || quantity == Quantity::rain_several_days;
}

bool is_time(Quantity quantity) {
  switch (quantity) {
    case Quantity::stamp:
    case Quantity::time_of_day:
    case Quantity::hour_ending:
    case Quantity::year:
    case Quantity::month:
    case Quantity::day_of_month:
    case Quantity::day_of_year:
      return true;
    default:
      return false;
  }
}

}  // namespace soilclock::weather
