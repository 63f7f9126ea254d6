// SPDX-License-Identifier: MIT
#include "emergence/sum_curve.hpp"

#include <algorithm>

namespace soilclock::emergence {

namespace {

/// Sums a daily amount over the season days from `from_day` on.
template <class Amount>
std::vector<DegreeDays> running(std::span<const Temperature> daily, int from_day, Amount&& amount) {
  std::vector<DegreeDays> sum;
  sum.reserve(daily.size());
  double total = 0.0;
  for (std::size_t i = lead_in_days; i < daily.size(); ++i) {
    const int day = static_cast<int>(i) - lead_in_days;
    if (day >= from_day) total += amount(daily[i]);
    sum.push_back(DegreeDays::from_celsius_days(total));
  }
  return sum;
}

}  // namespace

std::vector<DegreeDays> warmth_sum(std::span<const Temperature> daily, Temperature base, int from_day) {
  return running(daily, from_day, [&](Temperature mean) { return std::max(0.0, (mean - base).kelvin()); });
}

std::vector<DegreeDays> cooling_sum(std::span<const Temperature> daily, Temperature ceiling, int from_day) {
  return running(daily, from_day, [&](Temperature mean) { return std::max(0.0, (ceiling - mean).kelvin()); });
}

std::vector<DegreeDays> gated_warmth_sum(std::span<const Temperature> daily, Temperature base,
                                         Temperature gate, int from_day) {
  return running(daily, from_day,
                 [&](Temperature mean) { return mean < gate ? 0.0 : std::max(0.0, (mean - base).kelvin()); });
}

EmergenceCurve run_curve(const std::vector<DegreeDays>& sum, const Curve& curve) {
  return run_curve_from_onset(sum, curve, 0, sum.empty() ? DegreeDays{} : sum.front());
}

std::optional<int> day_reaching(const std::vector<DegreeDays>& sum, DegreeDays value) {
  const auto found = std::lower_bound(sum.begin(), sum.end(), value);
  if (found == sum.end()) return std::nullopt;
  return static_cast<int>(found - sum.begin());
}

EmergenceCurve run_curve_from_onset(const std::vector<DegreeDays>& sum, const Curve& curve,
                                    std::optional<int> onset_day, DegreeDays at_onset) {
  EmergenceCurve emerged;
  emerged.up.resize(sum.size());
  if (!onset_day) return emerged;
  const auto onset = static_cast<std::size_t>(*onset_day);
  for (std::size_t d = onset; d < sum.size(); ++d) {
    emerged.up[d] = curve.value((at_onset + (sum[d] - sum[onset])).celsius_days());
  }
  emerged.close_at_own_total();
  return emerged;
}

EmergenceCurve run_offset_rule(const EmergenceCurve& leader, int offset_days,
                               std::span<const Temperature> soil, Temperature gate, int from_day) {
  const std::vector<Temperature> week = trailing_week(soil);
  EmergenceCurve emerged;
  emerged.up.resize(leader.up.size());
  bool open = false;
  for (std::size_t d = 0; d < emerged.up.size() && d < week.size(); ++d) {
    const int day = static_cast<int>(d);
    open = open || (day >= from_day && week[d] >= gate);
    if (open) emerged.up[d] = leader.at(day - offset_days);
  }
  emerged.close_at_own_total();
  return emerged;
}

EmergenceCurve run_calendar(const Season& season, int season_days, const Curve& curve, double shift_days) {
  const Season north = season_of(make_day(2001, 7, 1), season.kind, Hemisphere::north);
  const double first = day_of_year(north.first);
  EmergenceCurve emerged;
  emerged.up.resize(static_cast<std::size_t>(season_days));
  for (std::size_t d = 0; d < emerged.up.size(); ++d) {
    emerged.up[d] = curve.value(first + static_cast<double>(d) - shift_days);
  }
  emerged.close_at_own_total();
  return emerged;
}

}  // namespace soilclock::emergence
