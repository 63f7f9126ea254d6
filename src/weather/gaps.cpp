// SPDX-License-Identifier: MIT
#include "weather/gaps.hpp"

#include <algorithm>

namespace soilclock::weather {

namespace {

struct Extremes {
  Temperature low;
  Temperature high;
};

std::optional<Extremes> extremes_on(const DailyWeather& weather, Day day) {
  const auto low = weather.air_min.at(day);
  const auto high = weather.air_max.at(day);
  if (!low || !high) return std::nullopt;
  return Extremes{*low, *high};
}

void put(DailyWeather& weather, Day day, const Extremes& extremes, Quality quality) {
  // A day with one measured extreme keeps it.
  if (!weather.air_min.at(day)) weather.air_min.set(day, extremes.low, quality);
  if (!weather.air_max.at(day)) weather.air_max.set(day, extremes.high, quality);
}

void interpolate(DailyWeather& weather, DayRange gap) {
  const Extremes before = *extremes_on(weather, gap.begin() - Days{1});
  const Extremes after = *extremes_on(weather, gap.end());
  for (Day day = gap.begin(); day < gap.end(); day += Days{1}) {
    const double share = static_cast<double>((day - gap.begin()).count() + 1) / (gap.size() + 1);
    put(weather, day,
        {before.low + (after.low - before.low) * share, before.high + (after.high - before.high) * share}, Quality::filled);
  }
}

/// Mean extremes of the same calendar day over the earlier years of the record; only measured days count.
std::optional<Extremes> past_years_on(const DailyWeather& weather, Day day) {
  const CivilDate date = civil(day);
  double low = 0.0;
  double high = 0.0;
  int years = 0;
  const int first_year = civil(weather.air_min.first()).year;
  for (int year = date.year - 1; year >= first_year; --year) {
    const auto same = checked_day(year, date.month, date.day);
    const Day then = same ? *same : make_day(year, date.month, date.day - 1);  // 29 February
    const auto extremes = extremes_on(weather, then);
    if (!extremes || weather.air_min.quality(then) != Quality::measured || weather.air_max.quality(then) != Quality::measured) continue;
    low += extremes->low.celsius();
    high += extremes->high.celsius();
    ++years;
  }
  if (years == 0) return std::nullopt;
  return Extremes{Temperature::from_celsius(low / years), Temperature::from_celsius(high / years)};
}

bool fill_from_past_years(DailyWeather& weather, DayRange gap) {
  std::vector<Extremes> found;
  for (Day day = gap.begin(); day < gap.end(); day += Days{1}) {
    const auto extremes = past_years_on(weather, day);
    if (!extremes) return false;
    found.push_back(*extremes);
  }
  for (std::size_t i = 0; i < found.size(); ++i) {
    put(weather, gap.begin() + Days{static_cast<int>(i)}, found[i], Quality::past_year);
  }
  return true;
}

std::vector<DayRange> find_gaps(const DailyWeather& weather, DayRange within) {
  std::vector<DayRange> gaps;
  std::optional<Day> last_known;
  for (Day day = within.begin(); day < within.end(); day += Days{1}) {
    if (!extremes_on(weather, day)) continue;
    if (last_known && day - *last_known > Days{1}) gaps.emplace_back(*last_known + Days{1}, day);
    last_known = day;
  }
  return gaps;
}

}  // namespace

FilledWeather fill_gaps(DailyWeather weather, DayRange within, const GapLimits& limits) {
  FilledWeather result{std::move(weather), {}, 0, 0};
  for (const DayRange& gap : find_gaps(result.weather, within)) {
    GapTreatment treatment = GapTreatment::left_open;
    if (gap.size() <= limits.interpolated_days) {
      interpolate(result.weather, gap);
      treatment = GapTreatment::interpolated;
    } else if (gap.size() <= limits.past_year_days && fill_from_past_years(result.weather, gap)) {
      treatment = GapTreatment::past_years;
    }
    (treatment == GapTreatment::left_open ? result.missing_days : result.filled_days) += gap.size();
    result.gaps.push_back({gap, treatment});
  }
  return result;
}

}  // namespace soilclock::weather
