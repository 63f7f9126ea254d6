// SPDX-License-Identifier: MIT
#include "thermal/accumulation.hpp"

#include <algorithm>
#include <span>
#include <utility>

#include "thermal/day_course.hpp"
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

/// Raw values of a range of days: those of the series where it holds them all, else a copy with `none` on the
/// days outside it.
template <class Value>
class ValuesOn {
 public:
  ValuesOn(std::span<const Value> values, Day first, DayRange days, Value none) {
    const DayRange known{std::max(first, days.begin()),
                         std::min(first + Days{static_cast<int>(values.size())}, days.end())};
    const auto from = static_cast<std::size_t>((known.begin() - first).count());
    const auto count = static_cast<std::size_t>(known.size());
    if (known.size() == days.size()) {
      values_ = values.subspan(count == 0 ? 0 : from, count);
      return;
    }
    copy_.assign(static_cast<std::size_t>(days.size()), none);
    if (count > 0)
      std::copy_n(values.begin() + static_cast<std::ptrdiff_t>(from), count,
                  copy_.begin() + (known.begin() - days.begin()).count());
    values_ = copy_;
  }
  ValuesOn(const ValuesOn&) = delete;
  ValuesOn& operator=(const ValuesOn&) = delete;

  std::span<const Value> values() const { return values_; }

 private:
  std::vector<Value> copy_;
  std::span<const Value> values_;
};

/// The extremes of a range of days, and how good they are; missing where either is.
struct Extremes {
  std::span<const Temperature> low;
  std::span<const Temperature> high;
  std::vector<Quality> quality;
};

std::vector<Quality> weaker_of(std::span<const Quality> low, std::span<const Quality> high) {
  std::vector<Quality> weaker(low.size());
  for (std::size_t i = 0; i < low.size(); ++i) {
    const bool missing = low[i] == Quality::missing || high[i] == Quality::missing;
    weaker[i] = missing ? Quality::missing : std::max(low[i], high[i]);
  }
  return weaker;
}

/// What keeps the first of the days that cannot be summed from having degree-days.
std::optional<Problem> first_problem(const Extremes& extremes, const DegreeDayRule& rule, DayRange days) {
  for (std::size_t i = 0; i < extremes.quality.size(); ++i) {
    if (extremes.quality[i] == Quality::missing) continue;
    const bool in_order = extremes.low[i] <= extremes.high[i] && rule.method != Method::hourly;
    if (in_order) continue;  // an unknown extreme is not
    Problem problem = *extremes_problem(rule, extremes.low[i], extremes.high[i]);
    if (problem.family == Family::data)
      problem.what = iso(days.begin() + Days{static_cast<int>(i)}) + ": " + problem.what;
    return problem;
  }
  return std::nullopt;
}

/// Days of one shape with a course of their own, or of the formulas that know none.
std::vector<DegreeDays> single_days(const Extremes& extremes, const DegreeDayRule& rule) {
  std::vector<DegreeDays> values(extremes.quality.size());
  if (rule.method == Method::sine || rule.method == Method::triangle) {
    const Shape shape = rule.method == Method::sine ? Shape::sine : Shape::triangle;
    degree_days_of(shape, extremes.low, extremes.high, rule, values);
    return values;
  }
  for (std::size_t i = 0; i < values.size(); ++i)
    values[i] = value_of_day(rule, extremes.low[i], extremes.high[i]).value;
  return values;
}

/// Half days that rise to the maximum and fall to the next minimum, or to the day's own where that is
/// unknown.
std::vector<DegreeDays> double_days(const Extremes& extremes, std::span<const Temperature> next_minimum,
                                    const DegreeDayRule& rule) {
  const Shape shape = rule.method == Method::double_sine ? Shape::sine : Shape::triangle;
  std::vector<Temperature> low(next_minimum.size());
  std::vector<Temperature> high(next_minimum.size());
  for (std::size_t i = 0; i < low.size(); ++i) {
    const Temperature next = next_minimum[i].known() ? next_minimum[i] : extremes.low[i];
    low[i] = std::min(next, extremes.high[i]);
    high[i] = std::max(next, extremes.high[i]);
  }
  std::vector<DegreeDays> rising(low.size());
  std::vector<DegreeDays> falling(low.size());
  degree_days_of(shape, extremes.low, extremes.high, rule, rising);
  degree_days_of(shape, low, high, rule, falling);
  for (std::size_t i = 0; i < rising.size(); ++i) rising[i] = (rising[i] + falling[i]) * 0.5;
  return rising;
}

}  // namespace

Result<Accumulation> accumulate(const DailySeries<Temperature>& minimum,
                                const DailySeries<Temperature>& maximum, const DegreeDayRule& rule,
                                DayRange days) {
  if (auto valid = checked(rule); !valid) return fail(valid.error());
  const auto unknown = Temperature::unknown();
  const ValuesOn low{minimum.values(), minimum.first(), days, unknown};
  const ValuesOn high{maximum.values(), maximum.first(), days, unknown};
  Extremes extremes{
      low.values(), high.values(),
      weaker_of(ValuesOn{minimum.qualities(), minimum.first(), days, Quality::missing}.values(),
                ValuesOn{maximum.qualities(), maximum.first(), days, Quality::missing}.values())};
  if (auto problem = first_problem(extremes, rule, days)) return fail(*std::move(problem));
  const bool needs_next = rule.method == Method::double_sine || rule.method == Method::double_triangle;
  std::vector<DegreeDays> values;
  std::vector<Day> provisional;
  if (needs_next) {
    const ValuesOn next{
        minimum.values(), minimum.first(), {days.begin() + Days{1}, days.end() + Days{1}}, unknown};
    values = double_days(extremes, next.values(), rule);
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (extremes.quality[i] != Quality::missing && !next.values()[i].known())
        provisional.push_back(days.begin() + Days{static_cast<int>(i)});
    }
  } else {
    values = single_days(extremes, rule);
  }
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (extremes.quality[i] == Quality::missing) values[i] = DegreeDays::unknown();
  }
  Accumulation result = summed({days.begin(), std::move(values), std::move(extremes.quality)});
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
