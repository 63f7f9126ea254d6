// SPDX-License-Identifier: MIT
#include "weather/checks.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "core/unit_words.hpp"

namespace soilclock::weather {

namespace {

/// A day that differs from both neighbors by more than this in one direction is looked at. Frontal passages
/// reach about 25 C from day to day in continental climates, but not there and back. Basis: common practice.
constexpr double daily_jump_k = 25.0;
/// Both extremes equal for this many days in a row. Basis: common practice.
constexpr int stuck_days = 5;

std::string day_list(const std::vector<Day>& days) {
  std::vector<std::string> ranges;
  for (std::size_t i = 0; i < days.size();) {
    std::size_t last = i;
    while (last + 1 < days.size() && days[last + 1] - days[last] == Days{1}) ++last;
    ranges.push_back(last == i ? iso(days[i]) : iso(days[i]) + " to " + iso(days[last]));
    i = last + 1;
  }
  return shortened_list(ranges, 6);
}

bool any_soil(const ParsedFile& reading, Day day) {
  for (const auto& [depth, series] : reading.daily.soil) {
    if (series.at(day)) return true;
  }
  return false;
}

bool soil_only(const ParsedFile& reading) {
  return reading.daily.air_min.empty() && reading.daily.air_max.empty();
}

void check_jumps(const DailySeries<Temperature>& series, const char* what, ReadingNotes& notes) {
  const auto values = series.values();
  for (std::size_t i = 1; i + 1 < values.size(); ++i) {
    const double up = (values[i] - values[i - 1]).kelvin();
    const double down = (values[i] - values[i + 1]).kelvin();
    if ((up > daily_jump_k && down > daily_jump_k) || (up < -daily_jump_k && down < -daily_jump_k)) {
      const Day day = series.first() + Days{static_cast<int>(i)};
      notes.doubt(
          fmt::format("the {} of {} ({}) is more than {} away from both neighboring days", what, iso(day),
                      temperature_words(values[i], notes.us_units()),
                      degrees_apart_words(TemperatureDelta::from_kelvin(daily_jump_k), notes.us_units())));
    }
  }
}

void check_stuck(const DailyWeather& daily, ReadingNotes& notes) {
  int run = 1;
  for (Day day = daily.air_min.empty() ? Day{} : daily.air_min.first() + Days{1};
       day <= daily.air_min.days().end(); day += Days{1}) {
    const auto low = daily.air_min.at(day);
    const auto high = daily.air_max.at(day);
    const bool same =
        low && high && low == daily.air_min.at(day - Days{1}) && high == daily.air_max.at(day - Days{1});
    if (same) {
      ++run;
      continue;
    }
    if (run >= stuck_days) {
      notes.doubt(fmt::format(
          "minimum and maximum are the same on {} days in a row up to {}; the sensor may be stuck", run,
          iso(day - Days{1})));
    }
    run = 1;
  }
}

}  // namespace

bool plausible(Temperature temperature) {
  constexpr double coldest_c = -60.0;
  return temperature.celsius() >= coldest_c && temperature.celsius() <= hottest_air_c;
}
bool plausible(Rain rain) { return rain.mm() >= 0.0 && rain.mm() <= 500.0; }

DailyExtremes ExtremesCheck::checked(DailyExtremes pair, Day day, std::optional<int> line) {
  const auto drop_impossible = [&](std::optional<Temperature>& value, const char* what) {
    if (!value || plausible(*value)) return;
    notes_.repeated("impossible temperatures",
                    fmt::format("a {} of {} is not weather; taken as missing", what,
                                temperature_words(*value, notes_.us_units())),
                    line);
    value.reset();
  };
  drop_impossible(pair.minimum, "minimum");
  drop_impossible(pair.maximum, "maximum");
  pairs_ += pair.minimum && pair.maximum ? 1 : 0;
  if (pair.minimum && pair.maximum && *pair.minimum > *pair.maximum) {
    ++reversed_;
    if (swap_reversed_) {
      std::swap(pair.minimum, pair.maximum);
      notes_.repeated("reversed extremes",
                      fmt::format("{}: minimum above maximum; exchanged as asked", iso(day)), line);
    } else {
      notes_.repeated(
          "reversed extremes",
          fmt::format("{}: the minimum ({}) is above the maximum ({}); the day is taken as missing "
                      "(--swap-reversed exchanges them)",
                      iso(day), temperature_words(*pair.minimum, notes_.us_units()),
                      temperature_words(*pair.maximum, notes_.us_units())),
          line);
      pair = {};
    }
  }
  return pair;
}

std::optional<Rain> ExtremesCheck::checked_rain(Rain rain, std::optional<int> line) {
  if (plausible(rain)) return rain;
  notes_.repeated("impossible rain amounts",
                  fmt::format("{} of rain in a day is not possible; taken as missing",
                              water_words(rain, notes_.us_units())),
                  line);
  return std::nullopt;
}

std::optional<Temperature> ExtremesCheck::checked_soil(Temperature temperature, std::optional<int> line) {
  if (plausible(temperature)) return temperature;
  notes_.repeated("impossible temperatures",
                  fmt::format("a soil temperature of {} is not possible; taken as missing",
                              temperature_words(temperature, notes_.us_units())),
                  line);
  return std::nullopt;
}

Problem exchanged_columns(std::optional<int> line, const std::string& minimum, const std::string& maximum,
                          const ReadingNotes& notes) {
  return notes.problem(
      "the minimum is above the maximum on all or most rows: are the two columns exchanged?", line, {},
      fmt::format("'{}' as minimum and '{}' as maximum", minimum, maximum), "minima at or below the maxima",
      fmt::format("if they are exchanged, say --columns \"{}=tmax,{}=tmin\", or --swap-reversed", minimum,
                  maximum));
}

void clear_reversed_days(DailyWeather& daily, ReadingNotes& notes) {
  std::vector<Day> reversed;
  for (Day day = daily.air_min.days().begin(); day < daily.air_min.days().end(); day += Days{1}) {
    const auto low = daily.air_min.at(day);
    const auto high = daily.air_max.at(day);
    if (low && high && *low > *high) reversed.push_back(day);
  }
  if (reversed.empty()) return;
  for (const Day day : reversed) {
    daily.air_min.clear(day);
    daily.air_max.clear(day);
  }
  notes.doubt(
      fmt::format("on {} {} the minimum, which is from another row than the maximum, is above it; "
                  "taken as missing: {}",
                  reversed.size(), reversed.size() == 1 ? "day" : "days", day_list(reversed)));
}

void count_days(ParsedFile& reading) {
  reading.days_with_data = reading.missing_days = reading.partial_days = 0;
  if (!reading.first_date || !reading.last_date) return;
  const bool soil = soil_only(reading);
  for (Day day = *reading.first_date; day <= *reading.last_date; day += Days{1}) {
    const bool low = reading.daily.air_min.at(day).has_value();
    const bool high = reading.daily.air_max.at(day).has_value();
    const bool whole = soil ? any_soil(reading, day) : low && high;
    reading.days_with_data += whole ? 1 : 0;
    reading.partial_days += !soil && low != high ? 1 : 0;
    reading.missing_days += !whole && !low && !high ? 1 : 0;
  }
}

void check_daily_series(const ParsedFile& reading, ReadingNotes& notes) {
  if (!reading.first_date || !reading.last_date) return;
  std::vector<Day> absent;
  std::vector<Day> partial;
  const bool soil = soil_only(reading);
  for (Day day = *reading.first_date; day <= *reading.last_date; day += Days{1}) {
    const bool low = reading.daily.air_min.at(day).has_value();
    const bool high = reading.daily.air_max.at(day).has_value();
    if (soil ? !any_soil(reading, day) : !low && !high) absent.push_back(day);
    if (!soil && low != high) partial.push_back(day);
  }
  // A probe read now and then is no record with holes.
  const bool now_and_then = soil && static_cast<int>(absent.size()) > reading.days_with_data;
  if (!absent.empty() && !now_and_then) {
    notes.doubt(fmt::format("{} {} between the first and the last without any usable temperature: {}",
                            absent.size(), absent.size() == 1 ? "day" : "days", day_list(absent)));
  }
  if (!partial.empty()) {
    notes.doubt(fmt::format("{} {} with only one of minimum and maximum: {}", partial.size(),
                            partial.size() == 1 ? "day" : "days", day_list(partial)));
  }
  check_jumps(reading.daily.air_min, "minimum", notes);
  check_jumps(reading.daily.air_max, "maximum", notes);
  check_stuck(reading.daily, notes);
}

}  // namespace soilclock::weather
