// SPDX-License-Identifier: MIT
#include "weather/formats/station_elements.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "core/unit_words.hpp"
#include "weather/checks.hpp"
#include "weather/columns/unit_conversion.hpp"

namespace soilclock::weather {

namespace {

/// Depths of the last digit of SN and SX. Source: the archive's readme; basis: memory.
constexpr std::array soil_depths_cm{5.0, 10.0, 20.0, 50.0, 100.0, 150.0, 180.0};

/// Covers of the first digit in the order we want them: sod and grass before bare ground and the rest.
constexpr std::string_view cover_order = "51423678 0";

bool is_soil(std::string_view element) {
  return element.size() == 4 && (element.starts_with("SN") || element.starts_with("SX")) &&
         element[2] >= '0' && element[2] <= '8' && element[3] >= '1' && element[3] <= '7';
}

std::vector<std::string> day_texts(const std::set<Day>& days) {
  std::vector<std::string> texts;
  texts.reserve(days.size());
  for (const Day day : days) texts.push_back(iso(day));
  return texts;
}

}  // namespace

Checked StationElements::add(const ElementValue& value, ReadingNotes& notes) {
  const std::string element{value.element};
  OneElement& days = values_[element];
  Kept kept{value.value, true, value.line};
  if (!trimmed(value.quality).empty()) {
    kept.usable = false;
    ++failed_[std::string{trimmed(value.quality)}];
  }
  const std::string_view measured = trimmed(value.measurement);
  if (element == "PRCP" && measured == "T") traces_.insert(value.day);
  if (element == "PRCP" && measured == "P") {
    kept.usable = false;
    presumed_.insert(value.day);
  }
  if (element == "TMAX" || element == "PRCP") times_.add(trimmed(value.time), value.line);
  const auto [place, fresh] = days.emplace(value.day, kept);
  if (fresh || place->second.value == value.value) return {};
  return fail(
      notes.problem(fmt::format("{} of {} stands twice with different values", element, iso(value.day)),
                    value.line, {}, fmt::format("{:g}", value.value),
                    fmt::format("{:g} as before", place->second.value), "load the data again"));
}

const StationElements::OneElement* StationElements::find(const std::string& element) const {
  const auto found = values_.find(element);
  return found == values_.end() ? nullptr : &found->second;
}

Checked StationElements::check_unit(const ReadingNotes& notes) const {
  // A place whose year never exceeds 60 C is every place (record 56.7 C); tenths of a degree and Fahrenheit
  // taken for Celsius exceed it. A single wild value is no unit, so the ninth decile decides.
  std::vector<double> maxima;
  if (const OneElement* days = find("TMAX")) {
    for (const auto& [day, kept] : *days) {
      if (kept.usable) maxima.push_back(to_temperature(kept.value, temperature_).celsius());
    }
  }
  if (maxima.empty()) return {};
  std::sort(maxima.begin(), maxima.end());
  const double high = maxima[(maxima.size() - 1) * 9 / 10];
  if (high <= 60.0) return {};
  return fail(notes.problem(
      fmt::format("one maximum in ten is {} C or more, which no station has ever had", number_text(high, 0)),
      {}, {}, {}, "temperatures in C and rain in mm",
      "these are tenths or Fahrenheit; name the units with --units-in"));
}

void StationElements::note_flags(ReadingNotes& notes) const {
  int failed = 0;
  std::vector<std::string> flags;
  for (const auto& [flag, count] : failed_) {
    failed += count;
    flags.push_back(printable(flag, 4));
  }
  if (failed > 0) {
    notes.doubt(fmt::format("{} {} failed a quality check (flag {}) and {} taken as missing", failed,
                            failed == 1 ? "value" : "values", shortened_list(flags, 8),
                            failed == 1 ? "is" : "are"));
  }
  if (!traces_.empty()) {
    notes.doubt(fmt::format("a trace of rain on {}: rain fell, the amount counts as 0",
                            shortened_list(day_texts(traces_), 5)));
  }
  if (!presumed_.empty()) {
    notes.doubt(fmt::format("rain was not reported but presumed zero on {}: taken as missing",
                            shortened_list(day_texts(presumed_), 5)));
  }
}

void StationElements::fill_air(const ReadingOptions& options, Days shift, ParsedFile& reading,
                               ReadingNotes& notes) const {
  struct Pair {
    DailyExtremes extremes;
    std::optional<int> line;
  };
  std::map<Day, Pair> days;
  const auto take = [&](const char* element, std::optional<Temperature> DailyExtremes::*part) {
    const OneElement* values = find(element);
    if (values == nullptr) return;
    for (const auto& [day, kept] : *values) {
      if (!kept.usable) continue;
      days[day].extremes.*part = to_temperature(kept.value, temperature_);
      if (!days[day].line) days[day].line = kept.line;
    }
  };
  take("TMAX", &DailyExtremes::maximum);
  take("TMIN", &DailyExtremes::minimum);
  ExtremesCheck check{options.swap_reversed_extremes, notes};
  for (const auto& [day, pair] : days) {
    const DailyExtremes usable = check.checked(pair.extremes, day, pair.line);
    if (usable.minimum) reading.daily.air_min.set(day, *usable.minimum, Quality::measured);
    if (usable.maximum) reading.daily.air_max.set(day - shift, *usable.maximum, Quality::measured);
  }
}

void StationElements::fill_rain(Days shift, ParsedFile& reading, ReadingNotes& notes) const {
  ExtremesCheck check{false, notes};
  if (const OneElement* days = find("PRCP")) {
    for (const auto& [day, kept] : *days) {
      if (!kept.usable) continue;
      if (const auto rain = check.checked_rain(to_rain(kept.value, rain_), kept.line))
        reading.daily.rain.set(day - shift, *rain, Quality::measured);
    }
  }
  clear_several_days(shift, reading, notes);
}

void StationElements::clear_several_days(Days shift, ParsedFile& reading, ReadingNotes& notes) const {
  const OneElement* totals = find("MDPR");
  if (totals == nullptr) return;
  const OneElement* spans = find("DAPR");
  for (const auto& [day, kept] : *totals) {
    int days = 1;
    const auto span = spans == nullptr ? OneElement::const_iterator{} : spans->find(day);
    if (spans != nullptr && span != spans->end() && span->second.value >= 1.0 &&
        span->second.value <= 366.0) {
      days = static_cast<int>(span->second.value);
    } else {
      // Not flagged: the days without an amount just before it.
      const auto unknown = [&](Day before) {
        return reading.daily.rain.days().contains(before) && !reading.daily.rain.at(before);
      };
      while (days < 31 && unknown(day - shift - Days{days})) ++days;
    }
    const Day first = day - Days{days - 1};
    for (Day within = first; within <= day; within += Days{1}) reading.daily.rain.clear(within - shift);
    notes.doubt(
        fmt::format("{} fell over the {} days {} to {}; the amounts of the single days are unknown",
                    water_words(to_rain(kept.value, rain_), notes.us_units()), days, iso(first), iso(day)),
        kept.line);
  }
}

void StationElements::fill_soil(ParsedFile& reading, ReadingNotes& notes) const {
  ExtremesCheck check{false, notes};
  for (std::size_t depth = 0; depth < soil_depths_cm.size(); ++depth) {
    for (const char cover : cover_order) {
      const std::string place{cover, static_cast<char>('1' + depth)};
      const OneElement* lows = find("SN" + place);
      const OneElement* highs = find("SX" + place);
      if (lows == nullptr || highs == nullptr) continue;
      DailySeries<Temperature> means;
      for (const auto& [day, low] : *lows) {
        const auto high = highs->find(day);
        if (!low.usable || high == highs->end() || !high->second.usable) continue;
        const Temperature mean = midpoint(to_temperature(low.value, temperature_),
                                          to_temperature(high->second.value, temperature_));
        if (const auto usable = check.checked_soil(mean, low.line))
          means.set(day, *usable, Quality::measured);
      }
      if (means.empty()) continue;
      notes.doubt(fmt::format("soil at {} is the mean of the day's extremes (SN{} and SX{})",
                              depth_words(Depth::from_cm(soil_depths_cm[depth]), notes.us_units()), place,
                              place));
      reading.daily.soil[Depth::from_cm(soil_depths_cm[depth])] = std::move(means);
      break;
    }
  }
}

void StationElements::list_columns(ParsedFile& reading) const {
  for (const auto& [element, days] : values_) {
    Quantity quantity = Quantity::not_used;
    if (element == "TMAX") quantity = Quantity::air_max;
    if (element == "TMIN") quantity = Quantity::air_min;
    if (element == "PRCP") quantity = Quantity::rain;
    if (element == "MDPR") quantity = Quantity::rain_several_days;
    std::optional<double> depth;
    if (is_soil(element)) {
      quantity = Quantity::soil;
      depth = soil_depths_cm[static_cast<std::size_t>(element[3] - '1')];
    }
    const Unit unit = quantity == Quantity::not_used ? Unit::none : is_rain(quantity) ? rain_ : temperature_;
    reading.columns.push_back({element, quantity_name(quantity, depth), std::string{unit_name(unit)}});
  }
}

Checked StationElements::finish(const ReadingOptions& options, ParsedFile& reading, ReadingNotes& notes) {
  if (const auto done = check_unit(notes); !done) return done;
  reading.step = "daily";
  list_columns(reading);
  note_flags(notes);
  const Days shift{times_.to_be_moved(options.shift_morning_observations, notes) ? 1 : 0};
  fill_air(options, shift, reading, notes);
  fill_rain(shift, reading, notes);
  fill_soil(reading, notes);
  for (const auto& [element, days] : values_) {
    if (days.empty()) continue;
    const Day first = days.begin()->first;
    const Day last = days.rbegin()->first;
    reading.first_date = reading.first_date ? std::min(*reading.first_date, first) : first;
    reading.last_date = reading.last_date ? std::max(*reading.last_date, last) : last;
  }
  count_days(reading);
  const bool no_temperature =
      reading.daily.air_min.empty() && reading.daily.air_max.empty() && reading.daily.soil.empty();
  if (no_temperature && reading.daily.rain.empty()) {
    return fail(notes.problem("there is neither temperature nor rain that can be used", {}, {}, {},
                              "TMAX, TMIN or PRCP",
                              "check the elements, the station and the range of dates"));
  }
  if (no_temperature)
    notes.doubt("there is no temperature, only rain");
  else
    check_daily_series(reading, notes);
  return {};
}

}  // namespace soilclock::weather
