// SPDX-License-Identifier: MIT
#include "weather/series/gaps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace soilclock::weather {

namespace {

/// The holes between the first and the last value, each as long as it is.
template <class Value>
std::vector<DayRange> holes(const DailySeries<Value>& series) {
  std::vector<DayRange> found;
  std::optional<Day> before;
  for (Day day = series.days().begin(); day < series.days().end(); day += Days{1}) {
    if (!series.at(day)) continue;
    if (before && day - *before > Days{1}) found.emplace_back(*before + Days{1}, day);
    before = day;
  }
  return found;
}

void interpolate(DailySeries<Temperature>& series, DayRange hole) {
  const Day before = hole.begin() - Days{1};
  const Temperature from = *series.at(before);
  const TemperatureDelta rise = *series.at(hole.end()) - from;
  const double span = static_cast<double>((hole.end() - before).count());
  for (Day day = hole.begin(); day < hole.end(); day += Days{1}) {
    series.set(day, from + rise * (static_cast<double>((day - before).count()) / span), Quality::filled);
  }
}

/// The same calendar day of another year; 28 February stands in for a 29th that year does not have.
Day in_year(Day day, int year) {
  const CivilDate date = civil(day);
  if (const auto same = checked_day(year, date.month, date.day)) return *same;
  return make_day(year, 2, 28);
}

std::optional<Temperature> mean_of_earlier_years(const DailySeries<Temperature>& measured, Day day) {
  double sum = 0.0;
  int count = 0;
  for (int year = civil(day).year - 1; year >= civil(measured.first()).year; --year) {
    const auto value = measured.at(in_year(day, year));
    if (!value) continue;
    sum += value->celsius();
    ++count;
  }
  if (count == 0) return std::nullopt;
  return Temperature::from_celsius(sum / count);
}

/// Adds a day to the last gap when it continues it with the same treatment.
void add_gap(std::vector<Gap>& gaps, const std::string& quantity, Day day, GapTreatment treatment) {
  if (!gaps.empty() && gaps.back().quantity == quantity && gaps.back().treatment == treatment &&
      gaps.back().days.end() == day) {
    gaps.back().days = DayRange{gaps.back().days.begin(), day + Days{1}};
    return;
  }
  gaps.push_back({quantity, DayRange{day, day + Days{1}}, treatment});
}

void fill_temperatures(const DailySeries<Temperature>& original, DailySeries<Temperature>& filled,
                       const std::string& quantity, const GapOptions& options, std::vector<Gap>& gaps) {
  for (const DayRange hole : holes(original)) {
    if (hole.size() <= options.longest_interpolated) {
      interpolate(filled, hole);
      gaps.push_back({quantity, hole, GapTreatment::interpolated});
      continue;
    }
    for (Day day = hole.begin(); day < hole.end(); day += Days{1}) {
      const auto mean =
          hole.size() <= options.longest_past_year ? mean_of_earlier_years(original, day) : std::nullopt;
      if (mean) filled.set(day, *mean, Quality::past_year);
      add_gap(gaps, quantity, day, mean ? GapTreatment::past_years : GapTreatment::left_missing);
    }
  }
}

bool was_filled(const DailySeries<Temperature>& before, const DailySeries<Temperature>& after, Day day) {
  return after.at(day).has_value() && !before.at(day).has_value();
}

/// One measured and one filled extreme, or two fills, can come out in the wrong order.
void take_reversed_away(const DailyWeather& before, FilledWeather& result) {
  DailyWeather& after = result.weather;
  for (Day day = after.air_min.days().begin(); day < after.air_min.days().end(); day += Days{1}) {
    const auto low = after.air_min.at(day);
    const auto high = after.air_max.at(day);
    if (!low || !high || *low <= *high) continue;
    for (auto [original, filled, name] : {std::tuple{&before.air_min, &after.air_min, "minimum"},
                                          std::tuple{&before.air_max, &after.air_max, "maximum"}}) {
      if (!was_filled(*original, *filled, day)) continue;
      filled->clear(day);
      result.gaps.push_back({name, DayRange{day, day + Days{1}}, GapTreatment::left_missing});
    }
  }
}

void count(const DailyWeather& before, FilledWeather& result) {
  const DailyWeather& after = result.weather;
  if (before.air_min.empty() && before.air_max.empty()) return;
  const DayRange low = before.air_min.empty() ? before.air_max.days() : before.air_min.days();
  const DayRange high = before.air_max.empty() ? low : before.air_max.days();
  const Day end = std::max(low.end(), high.end());
  for (Day day = std::min(low.begin(), high.begin()); day < end; day += Days{1}) {
    const bool filled =
        was_filled(before.air_min, after.air_min, day) || was_filled(before.air_max, after.air_max, day);
    result.filled_days += filled ? 1 : 0;
    result.missing_days += after.air_min.at(day) && after.air_max.at(day) ? 0 : 1;
  }
}

}  // namespace

FilledWeather fill_gaps(const DailyWeather& weather, const GapOptions& options) {
  FilledWeather result{weather, {}, 0, 0};
  fill_temperatures(weather.air_min, result.weather.air_min, "minimum", options, result.gaps);
  fill_temperatures(weather.air_max, result.weather.air_max, "maximum", options, result.gaps);
  GapOptions line_only = options;
  line_only.longest_past_year = 0;
  for (const auto& [depth, series] : weather.soil) {
    fill_temperatures(series, result.weather.soil[depth], fmt::format("soil {:.3g} cm", depth.cm()),
                      line_only, result.gaps);
  }
  for (const DayRange hole : holes(weather.rain))
    result.gaps.push_back({"rain", hole, GapTreatment::left_missing});
  take_reversed_away(weather, result);
  count(weather, result);
  return result;
}

}  // namespace soilclock::weather
