// SPDX-License-Identifier: MIT
#include "soil/site_fit.hpp"

#include <cmath>
#include <limits>

namespace soilclock::soil {

namespace {

/// Running sums of a straight line fit.
class LineSums {
 public:
  void add(double estimate, double reading) {
    n_ += 1.0;
    x_ += estimate;
    y_ += reading;
    xx_ += estimate * estimate;
    xy_ += estimate * reading;
  }

  std::optional<SiteLine> line(int fewest_readings) const {
    if (n_ < fewest_readings) return std::nullopt;
    const double spread = xx_ - x_ * x_ / n_;
    if (spread < 1.0) return std::nullopt;
    const double slope = (xy_ - x_ * y_ / n_) / spread;
    return SiteLine{slope, (y_ - slope * x_) / n_, static_cast<int>(n_)};
  }

 private:
  double n_ = 0.0;
  double x_ = 0.0;
  double y_ = 0.0;
  double xx_ = 0.0;
  double xy_ = 0.0;
};

/// Whether readings from one day to the other allow a line.
bool long_enough(Day first, Day last, const EstimateRules& rules) {
  return last - first >= Days{rules.line_span_days};
}

}  // namespace

Temperature SiteLine::at(Temperature estimate) const {
  return Temperature::from_celsius(intercept_c + slope * estimate.celsius());
}

std::optional<SiteLine> fit_line(const SoilTemperature& soil) {
  const EstimateRules& rules = soil.estimator.rules();
  if (soil.readings.empty() || !long_enough(soil.readings.front().day, soil.readings.back().day, rules))
    return std::nullopt;
  LineSums sums;
  for (const SoilReading& reading : soil.readings) {
    const auto estimate = soil.estimate.at(reading.day);
    if (estimate) sums.add(estimate->celsius(), (*estimate - reading.estimate_minus_reading).celsius());
  }
  return sums.line(rules.line_readings);
}

FittedSoil fit_to_readings(const SoilTemperature& soil, Hemisphere hemisphere) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  const EstimateRules& rules = soil.estimator.rules();
  FittedSoil result{{}, fit_line(soil), 0, nan, nan};
  if (soil.estimate.empty()) return result;
  const ConditionedSoilError error{soil.error, hemisphere, soil.estimate.days(), soil.readings};
  for (Day day = soil.estimate.first(); day <= soil.estimate.last(); day += Days{1}) {
    const auto estimate = soil.estimate.at(day);
    if (!estimate) continue;
    const Temperature fitted = result.line ? result.line->at(*estimate) : *estimate - error.mean(day);
    result.fitted.set(day, fitted, Quality::modelled);
  }
  double before = 0.0;
  double after = 0.0;
  LineSums sums;
  for (const SoilReading& reading : soil.readings) {
    const auto estimate = soil.estimate.at(reading.day);
    if (!estimate) continue;
    const Temperature truth = *estimate - reading.estimate_minus_reading;
    if (reading.day > soil.estimate.first() && reading.day > soil.readings.front().day) {
      const auto line = long_enough(soil.readings.front().day, reading.day, rules)
                            ? sums.line(rules.line_readings)
                            : std::nullopt;
      const Temperature predicted =
          line ? line->at(*estimate) : *estimate - error.mean_then(reading.day - Days{1});
      before += std::pow(reading.estimate_minus_reading.kelvin(), 2);
      after += std::pow((predicted - truth).kelvin(), 2);
      ++result.scored;
    }
    sums.add(estimate->celsius(), truth.celsius());
  }
  if (result.scored > 0) {
    result.rmse_before_c = std::sqrt(before / result.scored);
    result.rmse_after_c = std::sqrt(after / result.scored);
  }
  return result;
}

}  // namespace soilclock::soil
