// SPDX-License-Identifier: MIT
#include "advice/ensemble/quantiles.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace soilclock::advice {

namespace {

double sorted_quantile(const std::vector<double>& sorted, double probability) {
  const double at = probability * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(at);
  const auto above = std::min(below + 1, sorted.size() - 1);
  const double share = at - static_cast<double>(below);
  if (share == 0.0) return sorted[below];  // keeps an infinity next door out of the product
  return sorted[below] + share * (sorted[above] - sorted[below]);
}

std::optional<int> whole_day(double day) {
  if (!std::isfinite(day)) return std::nullopt;
  return static_cast<int>(std::lround(day));
}

}  // namespace

Band<double> band_of(std::vector<double> values) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  if (values.empty()) return {nan, nan, nan};
  std::sort(values.begin(), values.end());
  return {sorted_quantile(values, band_low_quantile), sorted_quantile(values, 0.5),
          sorted_quantile(values, band_high_quantile)};
}

Band<std::optional<int>> day_band_of(std::vector<std::optional<int>> days) {
  std::vector<double> values;
  values.reserve(days.size());
  for (const std::optional<int> day : days) {
    values.push_back(day ? static_cast<double>(*day) : std::numeric_limits<double>::infinity());
  }
  if (values.empty()) return {};
  const Band<double> band = band_of(std::move(values));
  return {whole_day(band.low), whole_day(band.middle), whole_day(band.high)};
}

}  // namespace soilclock::advice
