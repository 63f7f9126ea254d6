// SPDX-License-Identifier: MIT
#include "advice/ensemble/quantiles.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace soilclock::advice {

namespace {

/// Quantiles of values, asked for from low to high. Only the order statistics they need are put where a sort
/// would put them: sorting everything was a fifth of an answer's time, this is half of that or less.
class RisingQuantiles {
 public:
  explicit RisingQuantiles(std::vector<double>& values) : values_{values}, settled_{values.begin()} {}

  double at(double probability) {
    const double place = probability * static_cast<double>(values_.size() - 1);
    const auto below = values_.begin() + static_cast<std::ptrdiff_t>(place);
    std::nth_element(settled_, below, values_.end());
    settled_ = below;  // what stands before it is no larger
    const double share = place - std::floor(place);
    if (share == 0.0) return *below;  // keeps an infinity next door out of the product
    const double above = *std::min_element(below + 1, values_.end());
    return *below + share * (above - *below);
  }

 private:
  std::vector<double>& values_;
  std::vector<double>::iterator settled_;
};

std::optional<int> whole_day(double day) {
  if (!std::isfinite(day)) return std::nullopt;
  return static_cast<int>(std::lround(day));
}

}  // namespace

Band<double> band_of(std::vector<double> values) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  if (values.empty()) return {nan, nan, nan};
  RisingQuantiles quantiles{values};
  const double low = quantiles.at(band_low_quantile);
  const double middle = quantiles.at(0.5);
  return {low, middle, quantiles.at(band_high_quantile)};
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
