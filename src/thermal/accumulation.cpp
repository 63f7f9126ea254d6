// SPDX-License-Identifier: MIT
#include "thermal/accumulation.hpp"

#include <algorithm>
#include <utility>

#include "thermal/degree_day.hpp"

namespace soilclock::thermal {

namespace {

Accumulation summed(DailySeries<DegreeDays> values) {
  Accumulation result;
  result.missing_days = values.count_missing();
  result.sums.resize(static_cast<std::size_t>(values.size()));
  DegreeDays sum;
  const auto each = values.values();
  const auto qualities = values.qualities();
  for (std::size_t i = 0; i < each.size(); ++i) {
    if (qualities[i] != Quality::missing) sum += each[i];
    result.sums[i] = sum;
  }
  result.values = std::move(values);
  return result;
}

/// Positive part of a rate, as the degree-days of one day.
DegreeDays day_at(TemperatureDelta rate) {
  return DegreeDays::from_celsius_days(std::max(rate.kelvin(), 0.0));
}

template <class Rate>
Accumulation accumulate_each(const DailySeries<Temperature>& mean, DayRange days, Rate rate) {
  DailySeries<DegreeDays> values{days};
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    if (const auto value = mean.at(day)) values.set(day, day_at(rate(*value)), mean.quality(day));
  }
  return summed(std::move(values));
}

}  // namespace

Result<Accumulation> accumulate(const DailySeries<Temperature>& minimum,
                                const DailySeries<Temperature>& maximum, const DegreeDayRule& rule,
                                DayRange days) {
  if (auto valid = checked(rule); !valid) return fail(valid.error());
  const bool needs_next = rule.method == Method::double_sine || rule.method == Method::double_triangle;
  DailySeries<DegreeDays> values{days};
  std::vector<Day> provisional;
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    const auto low = minimum.at(day);
    const auto high = maximum.at(day);
    if (!low || !high) continue;
    const bool in_order = *low <= *high && rule.method != Method::hourly;  // an unknown extreme is not
    if (!in_order) {
      Problem problem = *extremes_problem(rule, *low, *high);
      if (problem.family == Family::data) problem.what = iso(day) + ": " + problem.what;
      return fail(std::move(problem));
    }
    const auto next = needs_next ? minimum.at(day + Days{1}) : std::nullopt;
    const DayValue value = value_of_day(rule, *low, *high, next);
    values.set(day, value.value, std::max(minimum.quality(day), maximum.quality(day)));
    if (value.provisional) provisional.push_back(day);
  }
  Accumulation result = summed(std::move(values));
  result.provisional = std::move(provisional);
  return result;
}

Accumulation accumulate_means(const DailySeries<Temperature>& mean, Temperature lower,
                              std::optional<Temperature> upper, DayRange days) {
  return accumulate_each(
      mean, days, [&](Temperature value) { return (upper ? std::min(value, *upper) : value) - lower; });
}

Accumulation accumulate_cooling(const DailySeries<Temperature>& mean, Temperature from, DayRange days) {
  return accumulate_each(mean, days, [&](Temperature value) { return from - value; });
}

}  // namespace soilclock::thermal
